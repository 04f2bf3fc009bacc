package tracksoak.bench.standin;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.simulated.DriveModel;

/** A stand-in served by a thread of this test, on a free port. */
public final class Serving implements AutoCloseable {

    private final StandIn standIn;
    private final Thread thread;
    private final List<String> dropped = new CopyOnWriteArrayList<>();
    private final List<String> refused = new CopyOnWriteArrayList<>();

    /** Serves a new image. */
    public Serving(Path folder, long bytes, @Nullable DriveModel model) {
        this(folder, bytes, model, RequestWatch.NONE);
    }

    /** The same, and lets somebody see every request. */
    public Serving(Path folder, long bytes, @Nullable DriveModel model, RequestWatch watch) {
        Path image = image(folder);
        standIn = new StandIn(
                Files.exists(image) ? SparseImage.open(image) : SparseImage.create(image, bytes),
                trace(folder),
                model,
                Door.at(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0)),
                new StandInListener() {
                    @Override
                    public void dropped(String peer, String why) {
                        dropped.add(why);
                    }

                    @Override
                    public void refused(String peer, String why) {
                        refused.add(why);
                    }
                },
                watch);
        thread = new Thread(standIn::serve, "stand-in");
        thread.start();
    }

    /** Where the image of a folder lies. */
    public static Path image(Path folder) {
        return folder.resolve("drive.img");
    }

    /** Where its trace lies. */
    public static Path trace(Path folder) {
        return folder.resolve("drive.img.trace");
    }

    /** How clients call it. */
    public String uri() {
        return "nbd://127.0.0.1:" + standIn.port();
    }

    /** What is served. */
    public StandIn standIn() {
        return standIn;
    }

    /** Why connections were ended. */
    List<String> dropped() {
        return dropped;
    }

    /** Why clients were not let in. */
    List<String> refused() {
        return refused;
    }

    Wire connect() throws IOException {
        return new Wire(new Socket(InetAddress.getLoopbackAddress(), standIn.port()));
    }

    /** Raw bytes to and from the server. */
    static final class Wire implements AutoCloseable {
        final Socket socket;
        final DataInputStream in;
        final DataOutputStream out;

        Wire(Socket socket) throws IOException {
            this.socket = socket;
            socket.setSoTimeout(10_000);
            socket.setTcpNoDelay(true);
            in = new DataInputStream(socket.getInputStream());
            out = new DataOutputStream(socket.getOutputStream());
        }

        /** Reads the greeting and answers it. */
        Wire greet(int flags) throws IOException {
            in.readNBytes(18);
            out.writeInt(flags);
            return this;
        }

        void option(int option, byte[] data) throws IOException {
            out.writeLong(0x49484156454F5054L);
            out.writeInt(option);
            out.writeInt(data.length);
            out.write(data);
        }

        /** Reads one answer to an option; its type. */
        int optionReply() throws IOException {
            in.readLong();
            in.readInt();
            int type = in.readInt();
            in.readNBytes(in.readInt());
            return type;
        }

        /** Goes on to the drive. */
        Wire go() throws IOException {
            greet(3);
            option(7, new byte[6]);
            int type = optionReply();
            while (type == 3) {
                type = optionReply();
            }
            if (type != 1) {
                throw new IOException("refused with " + Integer.toHexString(type));
            }
            return this;
        }

        void request(int flags, int type, long handle, long offset, int length) throws IOException {
            out.writeInt(0x25609513);
            out.writeShort(flags);
            out.writeShort(type);
            out.writeLong(handle);
            out.writeLong(offset);
            out.writeInt(length);
        }

        /** Reads one answer; its error. */
        int reply(long handle) throws IOException {
            if (in.readInt() != 0x67446698) {
                throw new IOException("no answer");
            }
            int error = in.readInt();
            long got = in.readLong();
            if (got != handle) {
                throw new IOException("answer to " + got + ", not to " + handle);
            }
            return error;
        }

        /** Whether the server has ended the connection. */
        boolean ended() throws IOException {
            return in.read() < 0;
        }

        @Override
        public void close() throws IOException {
            socket.close();
        }
    }

    /** Ends it; everything is on the disk then. */
    @Override
    public void close() {
        standIn.stop();
        try {
            thread.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        standIn.close();
    }
}
