package tracksoak.bench.standin;

import java.nio.ByteBuffer;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.profiles.base.NanoClock;

/**
 * What one connection says: bytes in, requests out, answers back. Knows no socket. Holds at most so many requests, so many
 * bytes and so many answers, whatever the client does; then {@link #full()} says that nothing more may be read. Confined to one
 * thread.
 */
final class Conversation {

    /** Most requests that wait. */
    private static final int MOST_WAITING = 256;

    /** Most answers that wait to be sent. */
    private static final int MOST_ANSWERS = 256;

    private static final int REQUEST_HEAD = 28;

    private final Buffers writes;
    private final Buffers reads;
    private final NanoClock clock;
    private final Deque<ByteBuffer> answers = new ArrayDeque<>();
    private final Deque<Request> waiting = new ArrayDeque<>();
    private final Handshake handshake;
    private Handshake.State state = Handshake.State.GOING_ON;
    private @Nullable Request filling;
    private boolean ending;
    private boolean starved;
    private int unanswered;

    /**
     * @param writes lends room for what comes in
     * @param reads lends room for what goes out: from another store, so that neither can starve the other
     */
    Conversation(HandshakeMaker maker, Buffers writes, Buffers reads, NanoClock clock) {
        this.writes = writes;
        this.reads = reads;
        this.clock = clock;
        this.handshake = maker.make(answers::add);
    }

    /** Makes the handshake of a conversation. */
    @FunctionalInterface
    interface HandshakeMaker {
        Handshake make(Consumer<ByteBuffer> out);
    }

    /**
     * Takes what has come; what is not whole yet stays in the buffer.
     *
     * @throws ProtocolBreach if the client cannot be understood any more
     */
    void take(ByteBuffer in) throws ProtocolBreach {
        if (state == Handshake.State.GOING_ON) {
            state = handshake.take(in);
        }
        starved = false;
        while (state == Handshake.State.READY && !ending && waiting.size() < MOST_WAITING && takeOne(in)) {
            // on to the next
        }
    }

    /** Where the rest of a write's bytes may be read to straight away; null if none is under way. */
    @Nullable
    ByteBuffer direct() {
        return filling == null ? null : filling.data;
    }

    /** Says that {@link #direct()} may have been filled. */
    void filled() {
        Request request = filling;
        if (request != null && request.data != null && !request.data.hasRemaining()) {
            request.data.flip();
            arrived(request);
            filling = null;
        }
    }

    private boolean takeOne(ByteBuffer in) throws ProtocolBreach {
        Request open = filling;
        if (open == null) {
            if (in.remaining() < REQUEST_HEAD) {
                return false;
            }
            open = head(in);
            if (open == null) {
                return false;
            }
        }
        ByteBuffer data = open.data;
        if (data == null) {
            return true;
        }
        int limit = in.limit();
        in.limit(Math.min(limit, in.position() + data.remaining()));
        data.put(in);
        in.limit(limit);
        filled();
        return filling == null;
    }

    /** Takes the head of a request; null if it has to wait for room, or ends the conversation. */
    private @Nullable Request head(ByteBuffer in) throws ProtocolBreach {
        int at = in.position();
        if (in.getInt(at) != Nbd.REQUEST) {
            throw new ProtocolBreach("what it sent is no request");
        }
        int flags = in.getShort(at + 4) & 0xFFFF;
        int type = in.getShort(at + 6) & 0xFFFF;
        long handle = in.getLong(at + 8);
        long offset = in.getLong(at + 16);
        long length = in.getInt(at + 24) & 0xFFFF_FFFFL;
        if (type == Nbd.CMD_DISC) {
            ending = true;
            return null;
        }
        if (type == Nbd.CMD_WRITE && length > Nbd.MOST_BYTES) {
            throw new ProtocolBreach("it sent a write of " + length + " bytes; most are " + Nbd.MOST_BYTES);
        }
        Request request = new Request(kind(type), (flags & Nbd.CMD_FLAG_FUA) != 0, handle, offset, length);
        request.error = wrong(request, type, flags);
        if (type == Nbd.CMD_WRITE && length > 0) {
            ByteBuffer data = writes.lend((int) length);
            if (data == null) {
                starved = true;
                return null;
            }
            request.data = data;
            filling = request;
        } else {
            arrived(request);
        }
        unanswered++;
        in.position(at + REQUEST_HEAD);
        return request;
    }

    private static Asked kind(int type) {
        return switch (type) {
            case Nbd.CMD_READ -> Asked.READ;
            case Nbd.CMD_WRITE -> Asked.WRITE;
            case Nbd.CMD_FLUSH -> Asked.FLUSH;
            case Nbd.CMD_TRIM -> Asked.TRIM;
            case Nbd.CMD_WRITE_ZEROES -> Asked.ZEROS;
            default -> Asked.NOTE;
        };
    }

    private static int wrong(Request request, int type, int flags) {
        int allowed = Nbd.CMD_FLAG_FUA | (type == Nbd.CMD_WRITE_ZEROES ? Nbd.CMD_FLAG_NO_HOLE : 0);
        boolean known = request.asked != Asked.NOTE;
        boolean tooLong = request.asked == Asked.READ && request.length > Nbd.MOST_BYTES;
        return !known || (flags & ~allowed) != 0 || tooLong ? Nbd.EINVAL : 0;
    }

    private void arrived(Request request) {
        request.arrivedNs = clock.nanoTime();
        waiting.add(request);
    }

    /** Whether the client uses the drive. */
    boolean ready() {
        return state == Handshake.State.READY;
    }

    /** Whether nothing more must be read for now. */
    boolean full() {
        return starved || blocked();
    }

    /** Whether nothing more may be taken, even if others give back room. */
    boolean blocked() {
        return waiting.size() >= MOST_WAITING || answers.size() >= MOST_ANSWERS || ending;
    }

    /** The request that came first and waits; null if none does. */
    @Nullable
    Request next() {
        return waiting.peek();
    }

    /** Takes it out. */
    void taken() {
        waiting.remove();
    }

    /** Answers a request that was taken out. */
    void answer(Request request) {
        answers.add(ByteBuffer.allocate(16)
                .putInt(Nbd.SIMPLE_REPLY)
                .putInt(request.error)
                .putLong(request.handle)
                .flip());
        ByteBuffer data = request.data;
        if (data != null && request.asked == Asked.READ && request.error == 0) {
            answers.add(data);
        } else {
            letGo(request);
        }
        request.data = null;
        unanswered--;
    }

    /** Gives back the room of a request that will not be answered, or has been. */
    void letGo(Request request) {
        if (request.data != null) {
            (request.asked == Asked.READ ? reads : writes).giveBack(request.data);
            request.data = null;
        }
    }

    /** What is to be sent first; null if nothing is. */
    @Nullable
    ByteBuffer outgoing() {
        return answers.peek();
    }

    /** Says that it is out. */
    void sent() {
        ByteBuffer out = answers.remove();
        if (out.isDirect()) {
            reads.giveBack(out);
        }
    }

    /** Whether everything is said: the client left, and has its answers. */
    boolean over() {
        boolean left = state == Handshake.State.OVER || (ending && unanswered == 0);
        return left && answers.isEmpty();
    }

    /** Gives back all it holds. */
    void drop() {
        waiting.forEach(this::letGo);
        waiting.clear();
        while (!answers.isEmpty()) {
            sent();
        }
        if (filling != null) {
            letGo(filling);
            filling = null;
        }
    }
}
