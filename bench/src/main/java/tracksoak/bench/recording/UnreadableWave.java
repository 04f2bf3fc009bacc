package tracksoak.bench.recording;

/** A file that is no WAVE, or one of which no sample can be told. The message says why, as the end of a sentence. */
public final class UnreadableWave extends Exception {

    private static final long serialVersionUID = 1L;

    private final boolean foreign;

    UnreadableWave(String why) {
        this(false, why);
    }

    private UnreadableWave(boolean foreign, String why) {
        super(why);
        this.foreign = foreign;
    }

    /** One that may be whole, but whose samples are stored in a way that is not read here. */
    static UnreadableWave foreign(String why) {
        return new UnreadableWave(true, why);
    }

    /** Whether nothing speaks against it but that it is not read here. */
    public boolean foreign() {
        return foreign;
    }

    /** Why, as the end of a sentence. */
    public String why() {
        return String.valueOf(getMessage());
    }
}
