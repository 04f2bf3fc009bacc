package tracksoak.bench.standin.learn;

/**
 * What one stop of the drive did to the recorder.
 *
 * @param atS when it began, in s since the trace began
 * @param stopS how long it was, in s
 * @param backlogS how much audio waited at most on the worst track, in s
 * @param lost whether audio was lost
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
        boolean lost,
        double lostS,
        int filesHit,
        int files,
        boolean ended,
        boolean filled,
        String by) {}
