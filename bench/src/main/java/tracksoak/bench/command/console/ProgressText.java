package tracksoak.bench.command.console;

import java.util.Locale;
import tracksoak.bench.phase.timeleft.AboutTime;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.PhaseKind;

/** How a run is getting on, in one line of plain letters. */
final class ProgressText {

    private static final int BAR = 10;

    private ProgressText() {}

    /** For example {@code 2/5 take, about 4 min left  32/32 tracks  backlog [##........] 310 of 2000 ms, worst 610 ms  14.2 MB/s}. */
    static String of(Progress progress) {
        StringBuilder line = new StringBuilder();
        line.append(progress.step()).append('/').append(progress.steps()).append(' ');
        line.append(name(progress.phase())).append(", ");
        line.append(left(progress));
        switch (progress.phase()) {
            case TAKE, PLAYBACK -> {
                if (progress.elapsedS() < 0) {
                    return line.append("  left alone, record in ")
                            .append(Units.seconds(Math.ceil(-progress.elapsedS())))
                            .toString();
                }
                paced(progress, line);
            }
            case FILL, COPY ->
                line.append("  ")
                        .append(Units.bytes(progress.bytes()))
                        .append(" written  longest write ")
                        .append(Units.ms(progress.worstServiceMs()));
            case READ_BACK, KEEPSAKE ->
                line.append("  ").append(Units.bytes(progress.bytes())).append(" read");
            case PROBES -> line.append("  single blocks over all the free room");
            case CLOSE -> line.append("  from stop to safe to unplug");
        }
        if (progress.phase() != PhaseKind.CLOSE) {
            line.append("  ").append(Units.rate(progress.bytesPerSecond()));
        }
        return line.toString();
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

    private static void paced(Progress progress, StringBuilder line) {
        line.append("  ")
                .append(progress.tracksCarried())
                .append('/')
                .append(progress.tracks())
                .append(" tracks");
        if (progress.lostMs() > 0) {
            line.append(", ").append(Units.ms(progress.lostMs())).append(" lost");
        }
        double full = progress.bufferMs() > 0 ? progress.backlogMs() / progress.bufferMs() : 0;
        int marks = (int) Math.max(0, Math.min(BAR, Math.ceil(full * BAR)));
        line.append("  backlog [")
                .append("#".repeat(marks))
                .append(".".repeat(BAR - marks))
                .append("] ");
        line.append(Math.round(progress.backlogMs()))
                .append(" of ")
                .append(Math.round(progress.bufferMs()))
                .append(" ms");
        line.append(", worst ").append(Math.round(progress.worstBacklogMs())).append(" ms");
    }

    /** {@code 0:07}, {@code 12:30}, {@code 3:05:00}. */
    private static String clock(double s) {
        long whole = Math.max(0, Math.round(s));
        long h = whole / 3600;
        String minutes = String.format(Locale.ROOT, h > 0 ? "%02d:%02d" : "%d:%02d", whole / 60 % 60, whole % 60);
        return h > 0 ? h + ":" + minutes : minutes;
    }
}
