package tracksoak.bench.standin;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import tracksoak.profiles.base.Inert;

/** The first part of a conversation: what the drive is, and whether this client may use it. Confined to one thread. */
final class Handshake {

    /** The name a client may ask for besides the empty one. */
    static final String NAME = "stand-in";

    /** Longest data of an option: the longest name and a list of what is asked of it. */
    private static final int LONGEST_OPTION = 4096 + 256;

    private static final int MOST_OPTIONS = 64;
    private static final int OPTION_HEAD = 16;

    /** How a handshake stands. */
    enum State {
        GOING_ON,
        /** The client uses the drive now. */
        READY,
        /** The client is done. */
        OVER
    }

    private final long sizeBytes;
    private final int flags;
    private final String about;
    private final Supplier<Optional<String>> admission;
    private final Consumer<ByteBuffer> out;
    private boolean greeted;
    private boolean noZeroes;
    private int options;

    /**
     * @param admission asked when the client wants to use the drive; says why it may not
     * @param out where answers go
     */
    Handshake(long sizeBytes, int flags, String about, Supplier<Optional<String>> admission, Consumer<ByteBuffer> out) {
        this.sizeBytes = sizeBytes;
        this.flags = flags;
        this.about = about;
        this.admission = admission;
        this.out = out;
        send(ByteBuffer.allocate(18).putLong(Nbd.HELLO).putLong(Nbd.OPTION).putShort((short)
                (Nbd.FIXED_NEWSTYLE | Nbd.NO_ZEROES)));
    }

    /** Takes what has come so far; what is not whole yet stays in the buffer. */
    State take(ByteBuffer in) throws ProtocolBreach {
        if (!greeted) {
            if (in.remaining() < 4) {
                return State.GOING_ON;
            }
            int asked = in.getInt();
            if ((asked & ~(Nbd.FIXED_NEWSTYLE | Nbd.NO_ZEROES)) != 0) {
                throw new ProtocolBreach("it set flags that do not exist");
            }
            noZeroes = (asked & Nbd.NO_ZEROES) != 0;
            greeted = true;
        }
        while (in.remaining() >= OPTION_HEAD) {
            int head = in.position();
            if (in.getLong(head) != Nbd.OPTION) {
                throw new ProtocolBreach("what it sent is no option");
            }
            int option = in.getInt(head + 8);
            long length = in.getInt(head + 12) & 0xFFFF_FFFFL;
            if (length > LONGEST_OPTION) {
                throw new ProtocolBreach("it sent an option of " + length + " bytes");
            }
            if (in.remaining() < OPTION_HEAD + length) {
                return State.GOING_ON;
            }
            if (++options > MOST_OPTIONS) {
                throw new ProtocolBreach("it sent more than " + MOST_OPTIONS + " options");
            }
            byte[] data = new byte[(int) length];
            in.position(head + OPTION_HEAD).get(data);
            State state = answer(option, ByteBuffer.wrap(data));
            if (state != State.GOING_ON) {
                return state;
            }
        }
        return State.GOING_ON;
    }

    private State answer(int option, ByteBuffer data) throws ProtocolBreach {
        return switch (option) {
            case Nbd.OPT_EXPORT_NAME -> exportName(data);
            case Nbd.OPT_ABORT -> {
                reply(option, Nbd.REP_ACK, new byte[0]);
                yield State.OVER;
            }
            case Nbd.OPT_LIST -> list(option, data);
            case Nbd.OPT_INFO, Nbd.OPT_GO -> info(option, data);
            default -> refuse(option, Nbd.REP_ERR_UNSUP, "this server does not know the option");
        };
    }

    private State exportName(ByteBuffer data) throws ProtocolBreach {
        String name = text(data, data.remaining());
        if (!known(name)) {
            throw new ProtocolBreach("it asked for a drive called " + Inert.quoted(name));
        }
        Optional<String> refused = admission.get();
        if (refused.isPresent()) {
            throw new ProtocolBreach(refused.get());
        }
        send(ByteBuffer.allocate(10 + (noZeroes ? 0 : 124)).putLong(sizeBytes).putShort((short) flags), noZeroes);
        return State.READY;
    }

    private State list(int option, ByteBuffer data) {
        if (data.hasRemaining()) {
            return refuse(option, Nbd.REP_ERR_INVALID, "a list is asked for without anything else");
        }
        byte[] name = NAME.getBytes(StandardCharsets.UTF_8);
        reply(
                option,
                Nbd.REP_SERVER,
                ByteBuffer.allocate(4 + name.length)
                        .putInt(name.length)
                        .put(name)
                        .array());
        reply(option, Nbd.REP_ACK, new byte[0]);
        return State.GOING_ON;
    }

    private State info(int option, ByteBuffer data) {
        if (data.remaining() < 6) {
            return refuse(option, Nbd.REP_ERR_INVALID, "the request is too short");
        }
        long nameLength = data.getInt() & 0xFFFF_FFFFL;
        if (nameLength > data.remaining() - 2) {
            return refuse(option, Nbd.REP_ERR_INVALID, "the name is longer than the request");
        }
        String name = text(data, (int) nameLength);
        int wishes = data.getShort() & 0xFFFF;
        if (data.remaining() != 2 * wishes) {
            return refuse(option, Nbd.REP_ERR_INVALID, "the request is not as long as it says");
        }
        if (!known(name)) {
            return refuse(option, Nbd.REP_ERR_UNKNOWN, "there is no drive of this name");
        }
        if (option == Nbd.OPT_GO) {
            Optional<String> refused = admission.get();
            if (refused.isPresent()) {
                return refuse(option, Nbd.REP_ERR_POLICY, refused.get());
            }
        }
        boolean described = false;
        while (data.hasRemaining()) {
            described |= data.getShort() == Nbd.INFO_DESCRIPTION;
        }
        reply(
                option,
                Nbd.REP_INFO,
                ByteBuffer.allocate(12)
                        .putShort((short) Nbd.INFO_EXPORT)
                        .putLong(sizeBytes)
                        .putShort((short) flags)
                        .array());
        reply(
                option,
                Nbd.REP_INFO,
                ByteBuffer.allocate(14)
                        .putShort((short) Nbd.INFO_BLOCK_SIZE)
                        .putInt(1)
                        .putInt(4096)
                        .putInt(Nbd.MOST_BYTES)
                        .array());
        if (described) {
            byte[] words = about.getBytes(StandardCharsets.UTF_8);
            reply(
                    option,
                    Nbd.REP_INFO,
                    ByteBuffer.allocate(2 + words.length)
                            .putShort((short) Nbd.INFO_DESCRIPTION)
                            .put(words)
                            .array());
        }
        reply(option, Nbd.REP_ACK, new byte[0]);
        return option == Nbd.OPT_GO ? State.READY : State.GOING_ON;
    }

    private static boolean known(String name) {
        return name.isEmpty() || name.equals(NAME);
    }

    private static String text(ByteBuffer data, int bytes) {
        byte[] text = new byte[bytes];
        data.get(text);
        return new String(text, StandardCharsets.UTF_8);
    }

    private State refuse(int option, int why, String words) {
        reply(option, why, words.getBytes(StandardCharsets.UTF_8));
        return State.GOING_ON;
    }

    private void reply(int option, int type, byte[] data) {
        send(ByteBuffer.allocate(20 + data.length)
                .putLong(Nbd.OPTION_REPLY)
                .putInt(option)
                .putInt(type)
                .putInt(data.length)
                .put(data));
    }

    private void send(ByteBuffer full) {
        send(full, true);
    }

    private void send(ByteBuffer full, boolean wholly) {
        if (!wholly) {
            full.position(full.capacity()); // the zeros after it are sent as well
        }
        out.accept(full.flip());
    }
}
