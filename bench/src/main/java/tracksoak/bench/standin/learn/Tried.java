package tracksoak.bench.standin.learn;

/**
 * What one stop of the drive did to the recorder.
 *
 * @param atS when it began, in s since the trace began
 * @param stopS how long it was, in s
 * @param backlogS how much audio waited when the drive came back, on average of all tracks, in s: no track's buffer is smaller, and
 *     what all share is no smaller either
 * @param unseenS less lost audio than that on a track would not have been seen, in s; 0 where the recording tells
 * @param lost whether audio was lost
 * @param doubtful whether that cannot be told: all tracks together fell short, none by as much as can be told apart
 * @param lostS how much, on the track that lost most, in s; 0 where only a person said so
 * @param filesHit how many files lost any
 * @param files how many were being recorded
 * @param ended whether the recorder ended the take
 * @param filled whether the chunks after it came on time all the same: where audio was lost, something else stands in its place
 * @param by what told it: {@code recording}, {@code trace} or {@code person}
 */
public record Tried(
        double atS,
        double stopS,
        double backlogS,
        double unseenS,
        boolean lost,
        boolean doubtful,
        double lostS,
        int filesHit,
        int files,
        boolean ended,
        boolean filled,
        String by) {

    /** Whether no audio was lost, as far as can be told. */
    public boolean held() {
        return !lost && !doubtful;
    }

    /** What it shows to be held in any case, in s. */
    double sureS() {
        return backlogS - unseenS;
    }
}
