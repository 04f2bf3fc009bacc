package tracksoak.bench.standin;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.bench.standin.trace.Note;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Waiter;

/**
 * Serves a stand-in over the network. One thread does everything, so that requests are done one after the other in the order in
 * which they came, as a drive does them; while it waits out a service time it goes on reading, so that the trace has the true
 * times of arrival.
 */
public final class StandInServer implements AutoCloseable {

    private static final long HANDSHAKE_NS = TimeUnit.SECONDS.toNanos(15);
    private static final long TICK_NS = TimeUnit.MILLISECONDS.toNanos(500);
    /** Shorter waits are not left to the selector, which knows whole ms only. */
    private static final long FINE_NS = TimeUnit.MICROSECONDS.toNanos(1500);

    private static final long FINE_STEP_NS = TimeUnit.MICROSECONDS.toNanos(200);
    private static final int MOST_SOCKETS = 32;

    private final Medium medium;
    private final String about;
    private final int flags;
    private final NanoClock clock;
    private final Waiter waiter;
    private final StandInListener listener;
    private final Selector selector;
    private final Door door;
    private final Admission admission = new Admission();
    private final Buffers writes = new Buffers();
    private final Buffers reads = new Buffers();
    private final List<Guest> guests = new ArrayList<>();
    private final ConcurrentLinkedQueue<Runnable> errands = new ConcurrentLinkedQueue<>();
    private final ByteBuffer staging = ByteBuffer.allocateDirect(256 << 10);
    private @Nullable Guest servedGuest;
    private @Nullable Request served;
    private long tickNs;
    private volatile boolean stopped;

    /** One connection. */
    private final class Guest {
        private final SocketChannel socket;
        private final SelectionKey key;
        private final String peer;
        private final String address;
        private final long sinceNs;
        private final Conversation conversation;
        private ByteBuffer rest = ByteBuffer.allocate(0);
        private boolean admitted;
        private boolean refused;
        private boolean closed;

        Guest(SocketChannel socket, SelectionKey key, InetSocketAddress from) {
            this.socket = socket;
            this.key = key;
            this.address = from.getAddress().getHostAddress();
            this.peer = name(from);
            this.sinceNs = clock.nanoTime();
            this.conversation = new Conversation(
                    out -> new Handshake(medium.sizeBytes(), flags, about, () -> admission(this), out),
                    writes,
                    reads,
                    clock);
        }
    }

    StandInServer(
            Medium medium,
            String about,
            boolean rotational,
            Door door,
            NanoClock clock,
            Waiter waiter,
            StandInListener listener) {
        this.medium = medium;
        this.about = about;
        this.flags = Nbd.FLAGS | (rotational ? Nbd.FLAG_ROTATIONAL : 0);
        this.clock = clock;
        this.waiter = waiter;
        this.listener = listener;
        this.tickNs = clock.nanoTime();
        this.door = door;
        try {
            selector = Selector.open();
            door.channel().register(selector, SelectionKey.OP_ACCEPT);
        } catch (IOException e) {
            throw Problem.cannot("The stand-in cannot listen: " + Problem.reason(e), "try again");
        }
    }

    /** The port it listens on. */
    public int port() {
        return door.channel().socket().getLocalPort();
    }

    /** Has something done by the thread that serves. Any thread. */
    public void soon(Runnable errand) {
        errands.add(errand);
        selector.wakeup();
    }

    /** Serves until {@link #stop}. */
    public void run() {
        try {
            while (!stopped) {
                doWork();
            }
        } catch (IOException e) {
            listener.trouble("The network cannot be used any more: " + Problem.reason(e));
        }
    }

    /** Ends {@link #run} soon. Any thread. */
    public void stop() {
        stopped = true;
        selector.wakeup();
    }

    private void doWork() throws IOException {
        await();
        for (SelectionKey key : selector.selectedKeys()) {
            if (key.isValid() && key.isAcceptable()) {
                accept();
            } else if (key.attachment() instanceof Guest guest) {
                work(guest);
            }
        }
        selector.selectedKeys().clear();
        for (Runnable errand = errands.poll(); errand != null; errand = errands.poll()) {
            errand.run();
        }
        serve();
        if (clock.nanoTime() - tickNs > TICK_NS) {
            tick();
        }
    }

    private void await() throws IOException {
        long leftNs = served == null ? TICK_NS : served.doneNs - clock.nanoTime();
        if (leftNs <= 0 || stopped) {
            selector.selectNow();
        } else if (leftNs < FINE_NS) {
            waiter.waitUntil(clock.nanoTime() + Math.min(leftNs, FINE_STEP_NS));
            selector.selectNow();
        } else {
            selector.select(Math.max(1, TimeUnit.NANOSECONDS.toMillis(Math.min(leftNs, TICK_NS) - FINE_NS / 2)));
        }
    }

    private void tick() {
        tickNs = clock.nanoTime();
        medium.saveTrace();
        for (Guest guest : List.copyOf(guests)) {
            if (!guest.admitted && tickNs - guest.sinceNs > HANDSHAKE_NS) {
                drop(
                        guest,
                        "it did not say what it wants within " + TimeUnit.NANOSECONDS.toSeconds(HANDSHAKE_NS) + " s");
            }
        }
    }

    private void accept() throws IOException {
        SocketChannel socket = door.channel().accept();
        if (socket == null) {
            return;
        }
        if (!(socket.getRemoteAddress() instanceof InetSocketAddress from) || medium.gone()) {
            socket.close();
            return;
        }
        if (guests.size() >= MOST_SOCKETS) {
            makeRoom();
        }
        if (guests.size() >= MOST_SOCKETS) {
            listener.refused(name(from), "there are " + MOST_SOCKETS + " connections, which is the most");
            socket.close();
            return;
        }
        socket.configureBlocking(false);
        socket.setOption(StandardSocketOptions.TCP_NODELAY, true);
        socket.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
        SelectionKey key = socket.register(selector, SelectionKey.OP_READ);
        Guest guest = new Guest(socket, key, from);
        key.attach(guest);
        guests.add(guest);
        work(guest);
    }

    /** Of those that have not said what they want the one that came first goes: a recorder says so at once. */
    private void makeRoom() {
        for (Guest guest : guests) {
            if (!guest.admitted) {
                drop(guest, "it had not said what it wants, and its place was needed");
                return;
            }
        }
    }

    private static String name(InetSocketAddress from) {
        return Inert.text(from.getAddress().getHostAddress() + ":" + from.getPort());
    }

    /** Reads and sends what can be. */
    private void work(Guest guest) {
        try {
            read(guest);
            if (!guest.closed) {
                send(guest);
            }
        } catch (ProtocolBreach breach) {
            drop(guest, breach.how());
        } catch (IOException broken) {
            leave(guest);
        }
    }

    private void read(Guest guest) throws IOException, ProtocolBreach {
        Conversation conversation = guest.conversation;
        boolean more = true;
        while (more && !conversation.full()) {
            ByteBuffer direct = conversation.direct();
            int got;
            if (direct != null && direct.remaining() >= 4096 && !guest.rest.hasRemaining()) {
                got = guest.socket.read(direct);
                more = !direct.hasRemaining();
                conversation.filled();
            } else {
                staging.clear();
                staging.put(guest.rest);
                got = guest.socket.read(staging);
                more = !staging.hasRemaining();
                staging.flip();
                conversation.take(staging);
                keep(guest);
                more |= got > 0 && conversation.direct() != null; // the rest of a write is mostly there already
            }
            admit(guest);
            if (got < 0) {
                leave(guest);
                return;
            }
        }
    }

    private void keep(Guest guest) {
        int left = staging.remaining();
        guest.rest = left == 0
                ? ByteBuffer.allocate(0)
                : ByteBuffer.allocate(left).put(staging).flip();
    }

    /** Why a guest is not let in, which is told; empty where it is. */
    private Optional<String> admission(Guest guest) {
        Optional<String> refused = admission.ask(guest.address, clock.nanoTime());
        refused.ifPresent(why -> {
            guest.refused = true;
            listener.refused(guest.peer, why);
        });
        return refused;
    }

    private void admit(Guest guest) {
        if (guest.conversation.ready() && !guest.admitted) {
            guest.admitted = true;
            if (admission.in(guest.address, clock.nanoTime())) {
                medium.note(Note.CONNECTED, 0);
                listener.connected(guest.address);
            }
        }
    }

    /** Goes on with what waits in a conversation since there was no room for it. */
    private void goOn(Guest guest) {
        if (!guest.closed && guest.rest.hasRemaining() && !guest.conversation.blocked()) {
            try {
                staging.clear();
                staging.put(guest.rest).flip();
                guest.conversation.take(staging);
                keep(guest);
            } catch (ProtocolBreach breach) {
                drop(guest, breach.how());
            }
        }
    }

    private void send(Guest guest) throws IOException {
        ByteBuffer out = guest.conversation.outgoing();
        while (out != null) {
            guest.socket.write(out);
            if (out.hasRemaining()) {
                break;
            }
            guest.conversation.sent();
            out = guest.conversation.outgoing();
        }
        if (guest.conversation.over()) {
            leave(guest);
            return;
        }
        int wanted = (out == null ? 0 : SelectionKey.OP_WRITE) | (guest.conversation.full() ? 0 : SelectionKey.OP_READ);
        if (guest.key.interestOps() != wanted) {
            guest.key.interestOps(wanted);
        }
    }

    /** Does and answers what is due. */
    private void serve() {
        while (true) {
            Request request = served;
            Guest guest = servedGuest;
            if (request != null && guest != null) {
                long nowNs = clock.nanoTime();
                if (nowNs < request.doneNs) {
                    return;
                }
                served = null;
                medium.answered(request, nowNs);
                if (guest.closed) {
                    guest.conversation.letGo(request);
                } else {
                    guest.conversation.answer(request);
                    trySend(guest);
                }
                roomIsFree();
                if (medium.gone()) {
                    List.copyOf(guests).forEach(one -> drop(one, "the drive was pulled out, as such drives are"));
                }
            }
            if (!begin()) {
                return;
            }
        }
    }

    private void trySend(Guest guest) {
        try {
            if (!guest.closed) {
                send(guest);
            }
        } catch (IOException broken) {
            leave(guest);
        }
    }

    /** Turns to the request that came first; false if there is none. */
    private boolean begin() {
        Guest first = null;
        Request request = null;
        for (Guest guest : guests) {
            Request next = guest.conversation.next();
            if (next != null && (request == null || next.arrivedNs < request.arrivedNs)) {
                request = next;
                first = guest;
            }
        }
        if (request == null || first == null) {
            return false;
        }
        if (request.asked == Asked.READ && request.error == 0 && request.length > 0) {
            ByteBuffer room = reads.lend((int) request.length);
            if (room == null) {
                return false;
            }
            request.data = room;
        }
        first.conversation.taken();
        if (request.asked == Asked.WRITE || request.asked == Asked.ZEROS) {
            admission.wrote();
        }
        served = request;
        servedGuest = first;
        medium.perform(request);
        return true;
    }

    private void drop(Guest guest, String why) {
        if (!guest.closed) {
            if (!guest.refused) {
                listener.dropped(guest.peer, why);
            }
            leave(guest);
        }
    }

    private void leave(Guest guest) {
        if (guest.closed) {
            return;
        }
        guest.closed = true;
        guests.remove(guest);
        guest.key.cancel();
        guest.conversation.drop();
        try {
            guest.socket.close();
        } catch (IOException ignored) {
            // it is gone either way
        }
        if (guest.admitted && admission.out()) {
            medium.note(Note.GONE, 0);
            listener.gone(guest.address);
        }
        roomIsFree();
    }

    private void roomIsFree() {
        for (int i = guests.size() - 1; i >= 0; i--) {
            Guest guest = guests.get(Math.min(i, guests.size() - 1));
            if (guest.rest.hasRemaining()) {
                goOn(guest);
                trySend(guest);
            }
            if (guests.isEmpty()) {
                return;
            }
        }
    }

    /** Closes all connections, after {@link #run} has ended. */
    @Override
    public void close() {
        List.copyOf(guests).forEach(this::leave);
        door.close();
        try {
            selector.close();
        } catch (IOException ignored) {
            // nothing more is asked of it
        }
    }
}
