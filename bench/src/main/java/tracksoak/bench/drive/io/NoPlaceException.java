package tracksoak.bench.drive.io;

import java.io.IOException;

/** The file system has no place for what was to be written, told by the system's own number for it and not by its words. */
public final class NoPlaceException extends IOException {

    private static final long serialVersionUID = 1L;

    private final Lack lack;

    public NoPlaceException(Lack lack, String message) {
        super(message);
        this.lack = lack;
    }

    /** What there is no place for. */
    public Lack lack() {
        return lack;
    }

    /** What a file system can lack. */
    public enum Lack {
        /** Room, or an entry in one of its tables: there is one number for both. */
        ROOM,
        /** A file as long as that: more than the file system takes, or than the system lets this account write. */
        LENGTH,
        /** This account's share of it. */
        QUOTA
    }
}
