package tracksoak.bench.inspect;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.inspection.Finding;

/** What is found, in one plain sentence. Names are made harmless. */
final class FindingText {

    /** Detail of a stretch that a filter may have made illegible. */
    static final String BENT = "bent";

    /** Detail of a take that may be one with the next. */
    static final String MAY_GO_ON = "may go on";

    /** Detail of zeros that last until their file ends. */
    static final String TO_THE_END = "to the end";

    /** Detail of zeros with which their file begins. */
    static final String FROM_THE_BEGINNING = "from the beginning";

    private static final int MOST_NAMED = 3;

    private FindingText() {}

    /**
     * The sentence.
     *
     * @param one any of those that are alike
     * @param where the tracks or files it is about
     * @param all how many tracks the take has
     */
    static String of(Found one, List<String> where, int all) {
        String on = names(where, all);
        String at = place(one);
        String length = length(one);
        return switch (one.kind()) {
            case HEADER_UNFINISHED ->
                on + ": the header was never finished, so it does not tell the length. Up to " + at
                        + " there is audio; whatever came after is missing.";
            case HEADER_CUT ->
                on + (where.size() == 1 ? ": " : ", each of them: ") + one.detail() + ". Nothing of it can be played.";
            case FILE_CUT ->
                on + ": the file ends at " + at + ", and by its header it should hold " + length
                        + " more. That audio is missing.";
            case AUDIO_BEHIND ->
                on + ": by its header the file ends at " + at + ", and " + length
                        + " more lie behind. Programs will not play them.";
            case BROKEN_SAMPLE ->
                on + ": the audio ends at " + at + " in the middle of a sample, so bytes are missing somewhere before.";
            case SHIFTED ->
                on + ": from " + at + " on, to within 50 ms, samples are read across their borders and play as"
                        + " noise: a piece that was no whole number of samples is missing there.";
            case OUTER_SIZE -> on + ": the first size in the header is not that of the file. The audio is whole.";
            case SPACE_LEFT ->
                on + ": behind the audio lies space that was given in advance, not written and not given back.";
            case EMPTY -> on + ": the file holds no audio.";
            case UNEQUAL_LENGTH ->
                one.detail().equals("shorter")
                        ? on + (where.size() == 1 ? " ends" : " end") + " at " + at + ", " + length
                                + " before the others: so much audio is missing somewhere in it."
                        : on + (where.size() == 1 ? " goes" : " go") + " on until " + at + ", " + length
                                + " longer than the others: something was recorded twice, or the others lost it.";
            case UNEQUAL_START ->
                on + (where.size() == 1 ? " starts " : " start ") + length + " " + one.detail()
                        + " than the others, at " + at + ". If it was not armed by then on purpose, audio is missing.";
            case GAP ->
                on + ": at the split at " + at + " " + length + " " + are(one)
                        + " missing by the files' time references.";
            case OVERLAP ->
                on + ": at the split at " + at + " the second file begins " + length
                        + " before the first one ends, by their time references.";
            case SWAPPED ->
                on + ": from " + at + " on the files are not in the order of their names: by its time reference "
                        + Inert.quoted(one.detail()) + " belongs elsewhere.";
            case SEAM ->
                on + ": at the split at " + at + " the audio does not go on where it left off. "
                        + (one.weight() == Finding.Weight.FAULT
                                ? "Files are out of order, or audio is missing between them."
                                : "A note or another take may begin right there, or audio is missing: have a listen.");
            case MISSING_SPLIT ->
                one.atS() == null
                        ? on + ": the files begin with number " + Inert.text(one.detail())
                                + ". The first file may be gone, or the recorder counts on from a take before."
                        : one.samples() != null && one.ms() > 0
                                ? on + ": at " + at + " a whole file is missing, " + length + " of audio."
                                : on + ": at " + at + " a file of the series is not there (" + Inert.text(one.detail())
                                        + ").";
            case UNLIKE_SPLITS ->
                on + ": from " + at + " on the file " + Inert.quoted(one.detail())
                        + " is of another format than the one before; its samples were not looked at.";
            case ZEROS -> zeros(one, on, at, length);
            case ERASED -> erased(one, on, at, length);
            case REPEATED_BLOCK ->
                on + ": the " + length + " from " + at
                        + " on are exactly what was recorded before. "
                        + (one.weight() == Finding.Weight.FAULT
                                ? "They are one block written twice; what belongs there is missing."
                                : "A loop can do that, and so can a block written twice: have a listen.");
            case NOT_A_NUMBER ->
                on + ": " + samples(one) + (isOne(one) ? " holds" : " hold") + " no number, the first at " + at
                        + ". What was there is missing.";
            case UNREADABLE ->
                one.atS() == null
                        ? on + ": cannot be read (" + Inert.text(one.detail()) + ")."
                        : on + ": " + length + " from " + at + " on cannot be read from the drive ("
                                + Inert.text(one.detail()) + ").";
            case SHARED_PLACE ->
                on + ": the " + length + " from " + at + " on share their place on the drive with "
                        + (one.detail().isEmpty() ? "something that is no file" : one.detail())
                        + ". One was written over the other, so on one of them audio is lost.";
            case NOT_LOOKED_AT -> on + ": not looked into (" + one.detail() + ").";
            case DIRTY ->
                "The file system is marked as not unmounted cleanly: the drive was pulled, or the recorder lost power,"
                        + " before all was written.";
            case MEDIA_FAILURE -> "The file system is marked: blocks of this drive could not be read or written.";
            case TABLES -> "The file system contradicts itself: " + Inert.whole(one.detail());
            case SIGNAL_MISSING -> on + ": " + length + " of the test signal " + are(one) + " missing at " + at + ".";
            case SIGNAL_REPEATED ->
                on + ": " + length + " of the test signal " + (isOne(one) ? "comes" : "come") + " a second time at "
                        + at + ".";
            case SIGNAL_MOVED ->
                on + ": " + length + " of the test signal " + are(one) + " out of order at " + at + ".";
            case SIGNAL_SPOILT ->
                on + ": " + length + " of the test signal from " + at + " on "
                        + (one.detail().isEmpty()
                                ? are(one) + " something else."
                                : "cannot be read. A low cut, or noise, bends the signal on its way and may do that:"
                                        + " have a look there, or record it without.");
            case SIGNAL_PAUSED ->
                on + ": the test signal pauses for " + length + " at " + at + ". "
                        + (one.weight() == Finding.Weight.FAULT
                                ? "It goes on without a pause on other tracks, so something was put in."
                                : "If the player did that, all is well; if not, the recorder put something in.");
            case SIGNAL_RESTARTED ->
                on + ": at " + at + " the test signal begins anew"
                        + (one.weight() == Finding.Weight.FAULT
                                ? ", but not on the other tracks."
                                : ", as if it had been played again.");
            case SIGNAL_APART ->
                one.detail().equals("later")
                        ? on + ": the test signal begins at " + at + ", " + length
                                + " later than on the other tracks. Either it was plugged in late, or audio is missing"
                                + " before."
                        : on + ": the test signal stands " + length
                                + " apart from that of the other tracks all the time.";
            case SIGNAL_ENDS ->
                on + ": the test signal ends at " + at + ". On other tracks it goes on for another " + length
                        + ", so audio is missing.";
            case CLOCKS ->
                on + ": the recorder's clock and the player's differ by " + one.detail()
                        + " millionths; more than 200 cannot be told from lost audio with certainty.";
            case SILENT ->
                on + (where.size() == 1 ? " is" : " are") + " silent from beginning to end"
                        + (one.weight() == Finding.Weight.LISTEN
                                ? ": nothing was recorded, or nothing was written."
                                : ".");
            case NO_SIGNAL ->
                on + (where.size() == 1 ? " carries" : " carry") + " no test signal, unlike other tracks.";
            case OTHER_TIMECODE ->
                on + (where.size() == 1 ? " carries" : " carry")
                        + " timecode that is not the test signal; nothing is judged by it.";
            case UNCERTAIN ->
                one.detail().equals(MAY_GO_ON)
                        ? on + ": by the lengths of its files this take ends here and another begins, but so near to"
                                + " the length of a whole file that both may be one, with audio missing or there twice"
                                + " between two files."
                        : on
                                + ": the files differ in length, and nothing but their names says whether they belong"
                                + " to one take. If they do, audio is missing.";
        };
    }

    private static String zeros(Found one, String on, String at, String length) {
        if (one.detail().equals(TO_THE_END)) {
            return on + ": from " + at + " to the end of its file " + length + " are exactly zero, "
                    + (one.weight() == Finding.Weight.LISTEN
                            ? "from the edge of a block on, while other tracks go on. Either it was muted right"
                                    + " there, or the rest was never written: have a listen."
                            : "and the audio before breaks off, as where it is muted. If nobody muted it, the rest"
                                    + " was never written.");
        }
        if (one.detail().equals(FROM_THE_BEGINNING)) {
            return on + ": from " + at + ", the beginning of its file, " + length + " are exactly zero, "
                    + (one.weight() == Finding.Weight.LISTEN
                            ? "up to the edge of a block, while other tracks sound. Either it was muted until"
                                    + " right there, or its beginning was never written: have a listen."
                            : "and then the audio is there at once, as where a mute ends. If nobody had muted it, its"
                                    + " beginning was never written.");
        }
        return switch (one.weight()) {
            case FAULT ->
                on + ": from " + at + " on " + length
                        + " are exactly zero, from the edge of one block to the edge of another. What belongs there is"
                        + " missing.";
            case LISTEN ->
                on + ": from " + at + " on " + length
                        + " are exactly zero, and begin and end abruptly: have a listen there.";
            case NOTE ->
                on + ": exact silence inside the audio, as a mute or a pause makes it; the longest from " + at + " on, "
                        + length + ".";
        };
    }

    private static String erased(Found one, String on, String at, String length) {
        boolean toTheEnd = one.detail().equals(TO_THE_END);
        if (!toTheEnd && !one.detail().equals(FROM_THE_BEGINNING)) {
            return on + ": from " + at + " on " + length
                    + " have every bit set, from the edge of one block to the edge of another, as erased memory has. What"
                    + " belongs there is missing.";
        }
        return on + ": from " + at
                + (toTheEnd ? " to the end of its file " : ", the beginning of its file, ")
                + length + " have every bit set, as erased memory has"
                + (one.weight() == Finding.Weight.LISTEN
                        ? (toTheEnd ? ", from" : ", up to") + " the edge of a block" + (toTheEnd ? " on" : "")
                                + ". So much was probably never written: have a listen there."
                        : ". If no input rests at that level, so much was never written.");
    }

    private static String place(Found one) {
        Double at = one.atS();
        return at == null ? "" : Times.playing(at);
    }

    private static String length(Found one) {
        if (one.samples() == null) {
            return "";
        }
        return one.exact() ? samples(one) + " (" + Units.ms(one.ms()) + ")" : Units.ms(one.ms());
    }

    private static boolean isOne(Found one) {
        Double samples = one.samples();
        return one.exact() && samples != null && Math.round(samples) == 1;
    }

    private static String are(Found one) {
        return isOne(one) ? "is" : "are";
    }

    private static String samples(Found one) {
        Double samples = one.samples();
        return Count.of(samples == null ? 0 : Math.round(samples), "sample");
    }

    /** {@code Kick}, {@code Kick, Snare and Vox 1}, {@code Kick, Snare, Vox 1 and 4 more}, {@code All 32 tracks}. */
    static String names(List<String> where, int all) {
        if (where.size() == all && all > 2) {
            return "All " + all + " tracks";
        }
        List<String> shown = where.stream().limit(MOST_NAMED).map(Inert::text).collect(Collectors.toList());
        if (where.size() > MOST_NAMED) {
            shown.add(String.format(Locale.ROOT, "%,d more", where.size() - MOST_NAMED));
        }
        return Count.list(shown);
    }
}
