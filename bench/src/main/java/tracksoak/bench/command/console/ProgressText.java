package tracksoak.bench.command.console;

import java.util.List;
import java.util.Locale;
import tracksoak.bench.phase.timeleft.AboutTime;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseKind;

/** How a run is getting on, in one line of plain letters. */
final class ProgressText {

    private static final int BAR = 10;

    private ProgressText() {}

    /**
     * The worst so far before all else, in as many columns as there are; what is needed least is left out first. For
     * example {@code 2/5 take, about 4 min left  [##........] 310 ms, worst 610 ms of 2 s  14.2 MB/s}.
     */
    static String of(Progress progress, int columns) {
        String begin = progress.step() + "/" + progress.steps() + " " + name(progress.phase()) + ", " + left(progress);
        String rate = "  " + Units.rate(progress.bytesPerSecond());
        List<String> choices = switch (progress.phase()) {
            case TAKE, PLAYBACK ->
                progress.elapsedS() < 0
                        ? List.of("  the drive rests, recording starts in "
                                + Units.seconds(Math.ceil(-progress.elapsedS())))
                        : paced(progress, rate);
            case FILL, COPY -> {
                String written = "  " + Units.bytes(progress.bytes()) + " written";
                String longest = "  longest write " + Units.ms(progress.worstServiceMs());
                yield List.of(written + longest + rate, longest + rate, longest);
            }
            case READ_BACK, KEEPSAKE -> List.of("  " + Units.bytes(progress.bytes()) + " read" + rate, rate);
            case PROBES -> List.of("  single blocks over all the free room" + rate, rate);
            case CLOSE -> List.of("  from stop to safe to unplug");
        };
        return choices.stream()
                .filter(rest -> begin.length() + rest.length() < columns)
                .findFirst()
                .map(rest -> begin + rest)
                .orElse(begin);
    }

    /** Of the whole run where that can be told, else of the phase, else how long it has lasted. */
    private static String left(Progress progress) {
        if (progress.leftS() >= 0) {
            return AboutTime.of(progress.leftS()) + " left";
        }
        return progress.phaseLeftS() >= 0
                ? AboutTime.of(progress.phaseLeftS()) + " of it left"
                : clock(progress.elapsedS()) + " so far";
    }

    /** What a person calls the phase. */
    static String name(PhaseKind phase) {
        return phase.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** From all there is to say down to what matters most. */
    private static List<String> paced(Progress progress, String rate) {
        double full = progress.bufferMs() > 0 ? progress.backlogMs() / progress.bufferMs() : 0;
        int marks = (int) Math.max(0, Math.min(BAR, Math.ceil(full * BAR)));
        String bar = "  [" + "#".repeat(marks) + ".".repeat(BAR - marks) + "]";
        String now = " " + Units.ms(progress.backlogMs()) + ",";
        String worst = " worst " + Units.ms(progress.worstBacklogMs()) + " of " + Units.ms(progress.bufferMs());
        String lost = progress.lostMs() > 0
                ? "  LOST " + Units.ms(progress.lostMs()) + " on "
                        + Count.of((long) progress.tracks() - progress.tracksCarried(), "track")
                : "";
        return List.of(
                bar + now + worst + lost + rate,
                bar + worst + lost + rate,
                " " + worst + lost + rate,
                " " + worst + lost,
                lost);
    }

    /** {@code 0:07}, {@code 12:30}, {@code 3:05:00}. */
    private static String clock(double s) {
        long whole = Math.max(0, Math.round(s));
        long h = whole / 3600;
        String minutes = String.format(Locale.ROOT, h > 0 ? "%02d:%02d" : "%d:%02d", whole / 60 % 60, whole % 60);
        return h > 0 ? h + ":" + minutes : minutes;
    }
}
