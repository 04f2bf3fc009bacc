package tracksoak.bench.standin.learn;

/**
 * One thing that was learnt of a recorder.
 *
 * @param habit which thing
 * @param value in words, with its unit; {@code cannot be told} where that is so
 * @param evidence what shows it, one sentence
 */
public record Learned(Habit habit, String value, String evidence) {

    /** What stands for a value that nothing shows. */
    public static final String UNKNOWN = "cannot be told";

    /** Whether something shows it. */
    boolean told() {
        return !value.equals(UNKNOWN);
    }
}
