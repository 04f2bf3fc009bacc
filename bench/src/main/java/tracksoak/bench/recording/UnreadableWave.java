package tracksoak.bench.recording;

/** A file that is no WAVE, or one of which no sample can be told. The message says why, as the end of a sentence. */
public final class UnreadableWave extends Exception {

    private static final long serialVersionUID = 1L;

    private final boolean wave;

    UnreadableWave(boolean wave, String why) {
        super(why);
        this.wave = wave;
    }

    /** Why, as the end of a sentence. */
    public String why() {
        return String.valueOf(getMessage());
    }

    /** Whether it begins as a WAVE file does. */
    public boolean beginsAsWave() {
        return wave;
    }
}
