package tracksoak.report.roster.web;

import java.io.Closeable;
import java.io.IOException;
import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import tracksoak.profiles.base.SystemClocks;

/** Ways in which one address can misbehave, each bounded in number and ended by closing it. */
enum Misbehaviour {
    /** Asks for 240 labels over 40 connections, each time for others. */
    LABELS(40) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            neighbour.count(neighbour.client.get("/labels?size=89x36&from=" + number % 40));
        }
    },
    /** Opens 1,000 connections and says nothing. */
    CONNECTIONS(4) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            neighbour.hold(neighbour.client.connect(), 1_000);
        }
    },
    /** Keeps 420 pages live. */
    STREAMS(4) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            Socket socket = neighbour.client.connect();
            neighbour.hold(socket, 420);
            PlainClient.send(socket, "GET /live");
            neighbour.count(PlainClient.status(socket));
        }
    },
    /** Sends large bodies with a good token, byte by byte. */
    SLOW_BODIES(4) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            Socket socket = neighbour.client.connect();
            neighbour.hold(socket, 60);
            PlainClient.send(
                    socket, "POST /sync/1/take", "Authorization: " + neighbour.bearer, "Content-Length: 15000000");
            socket.getOutputStream().write('x');
        }
    },
    /** Asks for 60 large answers and takes none of them. */
    SLOW_READERS(4) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            Socket socket = neighbour.client.connect();
            neighbour.hold(socket, 60);
            PlainClient.send(socket, "GET /labels?size=89x36&from=" + number % 40);
        }
    },
    /** Asks for pages as fast as it can. */
    REQUESTS(20) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            neighbour.count(neighbour.client.get("/?q=" + number));
        }
    },
    /** Tries tokens as fast as it can. */
    WRONG_TOKENS(10) {
        @Override
        void once(Neighbour neighbour, int number) throws IOException {
            neighbour.count(neighbour.client.get(
                    "/sync/1/names", "Authorization: " + neighbour.bearer.substring(0, 25) + "A".repeat(43)));
        }
    };

    private final int threads;

    Misbehaviour(int threads) {
        this.threads = threads;
    }

    abstract void once(Neighbour neighbour, int number) throws IOException;

    /** Begins; goes on until closed. */
    Neighbour begin(String address, int port, String bearer) {
        return new Neighbour(this, new PlainClient(address, port), bearer);
    }

    /** One that misbehaves. */
    static final class Neighbour implements Closeable {

        private final PlainClient client;
        private final String bearer;
        private final AtomicBoolean over = new AtomicBoolean();
        private final AtomicInteger numbers = new AtomicInteger();
        private final Queue<Socket> held = new ConcurrentLinkedQueue<>();
        private final Queue<Integer> answers = new ConcurrentLinkedQueue<>();
        private final List<Thread> threads = new ArrayList<>();

        private Neighbour(Misbehaviour how, PlainClient client, String bearer) {
            this.client = client;
            this.bearer = bearer;
            for (int i = 0; i < how.threads; i++) {
                Thread thread = new Thread(() -> loop(how), "neighbour-" + i);
                thread.setDaemon(true);
                threads.add(thread);
                thread.start();
            }
        }

        private void loop(Misbehaviour how) {
            while (!over.get()) {
                try {
                    how.once(this, numbers.getAndIncrement());
                } catch (IOException cut) {
                    answers.add(0);
                    pause();
                }
            }
        }

        /** So that the neighbour does not take the machine that its victims share with it. */
        private static void pause() {
            SystemClocks.PARK.waitUntil(
                    SystemClocks.NANO.nanoTime() + Duration.ofMillis(5).toNanos());
        }

        private void count(int status) {
            answers.add(status);
            pause();
        }

        /** Keeps it open; where so many are kept, the oldest goes. */
        private void hold(Socket socket, int most) throws IOException {
            held.add(socket);
            Socket oldest = held.size() > most ? held.poll() : null;
            if (oldest != null) {
                oldest.close();
                pause();
            }
        }

        /** Statuses of what was answered; 0 where the connection was cut. */
        List<Integer> answers() {
            return List.copyOf(answers);
        }

        /** How often it tried. */
        int tries() {
            return numbers.get();
        }

        @Override
        public void close() throws IOException {
            over.set(true);
            for (Socket socket = held.poll(); socket != null; socket = held.poll()) {
                socket.close();
            }
            for (Thread thread : threads) {
                try {
                    thread.join(30_000);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    throw new IOException("interrupted", e);
                }
            }
            for (Socket socket = held.poll(); socket != null; socket = held.poll()) {
                socket.close();
            }
        }
    }
}
