package tracksoak.report.roster.web.page;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.VerdictHead;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.HistoryEntry;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.RecordDigest;
import tracksoak.report.roster.standing.SessionStanding;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.web.page.view.DateChart;
import tracksoak.report.roster.web.page.view.DrivePage;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Happening;
import tracksoak.report.roster.web.page.view.RunRow;
import tracksoak.report.roster.web.page.view.StandingView;

/** A drive's own page. Any thread. */
final class Drives {

    /** Most runs and happenings shown; the rest is in the lists of the command line. */
    private static final int MOST_LINES = 200;

    /** Two runs make no trend. */
    private static final int LEAST_DRAWN = 3;

    private static final double MEGA = 1e6;

    private final Roster roster;
    private final Figures figures;

    Drives(Roster roster, Figures figures) {
        this.roster = roster;
        this.figures = figures;
    }

    DrivePage page(String drive, SessionChoices sessions, Frame frame) {
        BoardRow row = roster.drive(drive, null);
        String id = row.drive().id();
        List<HistoryEntry> history = roster.history(id);
        List<HistoryEntry> runs = history.stream()
                .filter(entry -> entry.digest() != null)
                .sorted(Comparator.comparingLong(
                                (HistoryEntry entry) -> known(entry).endedAtMs())
                        .reversed())
                .limit(MOST_LINES)
                .toList();
        List<SignatureRank> worths = worths(id, sessions);
        String tags = String.join(" ", row.drive().tags());
        String name =
                (tags.isEmpty() ? "" : tags + ", ") + Rows.hardware(row.drive().identity());
        return new DrivePage(
                frame.titled(Shown.of(tags.isEmpty() ? row.title() : tags).text() + " – drive roster"),
                Shown.whole(name),
                withdrawn(row),
                row.conflicts().stream()
                        .map(Conflict::sentence)
                        .map(Shown::whole)
                        .toList(),
                facts(row),
                known(worths),
                unproven(worths),
                charts(runs),
                runs.stream().map(this::run).toList(),
                history.stream().limit(MOST_LINES).map(Drives::happening).toList(),
                history.size() <= MOST_LINES
                        ? ""
                        : "The newest " + MOST_LINES + " of " + history.size()
                                + " entries; tracksoak roster show lists all.",
                "/labels?drive=" + id);
    }

    private static @Nullable Shown withdrawn(BoardRow row) {
        List<Claim> stand = row.drive().withdrawals();
        if (stand.isEmpty()) {
            return null;
        }
        Claim last = stand.get(stand.size() - 1);
        return Shown.whole(last.text() + " (" + last.by() + ", " + Times.day(Instant.ofEpochMilli(last.atMs())) + ")");
    }

    private static Facts facts(BoardRow row) {
        DriveIdentity identity = row.drive().identity();
        Long size = identity == null ? null : identity.sizeBytes();
        return Facts.about("The drive as computers saw it")
                .row("Maker", identity == null ? null : identity.maker())
                .row("Model", identity == null ? null : identity.model())
                .row("Serial number", Rows.serial(identity))
                .row("Capacity", size == null ? null : Units.bytes(size))
                .row("Id in the roster", row.drive().id())
                .row("Runs entered", Integer.toString(row.drive().records()))
                .build();
    }

    private record SignatureRank(String session, SessionStanding standing) {

        boolean unproven() {
            return standing.standing() == Standing.UNPROVEN;
        }
    }

    private List<SignatureRank> worths(String id, SessionChoices sessions) {
        return sessions.all().stream()
                .flatMap(known -> roster.standings(id, List.of(known.session())).values().stream()
                        .map(standing -> new SignatureRank(known.label(), standing)))
                // what speaks against it is read first
                .sorted(Comparator.comparing(
                                (SignatureRank worth) -> worth.standing().standing() != Standing.FAILED)
                        .thenComparing(worth -> worth.standing().standing()))
                .toList();
    }

    /** What it is worth, session by session; a withdrawal is one line, for it holds for all. */
    private static List<StandingView> known(List<SignatureRank> worths) {
        if (!worths.isEmpty()
                && worths.stream().allMatch(worth -> worth.standing().standing() == Standing.WITHDRAWN)) {
            return List.of(Rows.standing(worths.get(0).standing(), "every session"));
        }
        return worths.stream()
                .filter(worth -> !worth.unproven())
                .map(worth -> Rows.standing(worth.standing(), worth.session()))
                .toList();
    }

    /** The sessions it was never proven for in one line: most drives are for few sessions. */
    private static Shown unproven(List<SignatureRank> worths) {
        return Shown.whole(worths.stream()
                .filter(SignatureRank::unproven)
                .map(SignatureRank::session)
                .collect(Collectors.joining(", ")));
    }

    private RunRow run(HistoryEntry entry) {
        RecordDigest digest = known(entry);
        RecordRef ref = entry.event().record();
        RunFigures run = figures.of(digest.sha256()).orElse(null);
        SignatureState signature = entry.record() == null ? SignatureState.GOOD : entry.record();
        String doubt = digest.doubt();
        return new RunRow(
                "/records/" + digest.sha256(),
                Times.minute(Instant.ofEpochMilli(digest.endedAtMs())),
                VerdictHead.state(digest.outcome()),
                digest.outcome().words(),
                Shown.of(digest.session()),
                Shown.of(digest.plan() + (digest.shortened() ? ", shortened" : "")),
                text(run == null ? null : run.floorBytesPerSecond(), Units::rate),
                text(run == null ? null : run.peakBacklogMs(), Units::ms),
                text(run == null ? null : run.smallestMargin(), Units::factor),
                Shown.of(ref == null ? entry.event().by() : ref.by()),
                signature == SignatureState.GOOD && !doubt.isEmpty() ? doubt : words(signature),
                signature == SignatureState.GOOD && doubt.isEmpty());
    }

    private static RecordDigest known(HistoryEntry entry) {
        return Objects.requireNonNull(entry.digest());
    }

    private static String text(@Nullable Double value, Function<Double, String> words) {
        return value == null ? "–" : words.apply(value);
    }

    private static String words(SignatureState signature) {
        return switch (signature) {
            case GOOD -> "holds";
            case CHANGED -> "changed: it does not fit";
            case UNKNOWN_KEY -> "of an unknown key";
            case REVOKED -> "of a revoked key";
        };
    }

    private static Happening happening(HistoryEntry entry) {
        RosterEvent event = entry.event();
        RecordDigest digest = entry.digest();
        String tag = event.tag();
        String alone = entry.tagAloneLifted();
        String what = event.kind().word().replace('-', ' ')
                + (digest == null
                        ? tag == null ? "" : ": " + tag
                        : ": " + digest.outcome().words() + " for " + digest.session())
                + (alone != null ? " (its tag " + alone + " taken back)" : entry.lifted() ? " (taken back)" : "")
                + (entry.future() ? " (dated in the future)" : "");
        return new Happening(
                Times.minute(event.at()),
                Shown.whole(what),
                Shown.of(event.by()),
                Shown.whole(event.why()),
                entry.author() == SignatureState.GOOD ? "" : "signature " + words(entry.author()));
    }

    /** Floor and backlog over the runs that are like the latest, where there are enough of them to be a curve. */
    private List<DateChart> charts(List<HistoryEntry> newestFirst) {
        List<DatePlot.Value> floors = new ArrayList<>();
        List<DatePlot.Value> backlogs = new ArrayList<>();
        double demand = -1;
        double buffer = -1;
        RecordDigest latest = newestFirst.isEmpty() ? null : known(newestFirst.get(0));
        for (int i = newestFirst.size() - 1; i >= 0 && latest != null; i--) {
            RecordDigest digest = known(newestFirst.get(i));
            if (!digest.session().equals(latest.session()) || !digest.plan().equals(latest.plan())) {
                continue;
            }
            RunFigures run = figures.of(digest.sha256()).orElse(null);
            if (run == null) {
                continue;
            }
            Instant at = Instant.ofEpochMilli(digest.endedAtMs());
            Double floor = run.floorBytesPerSecond();
            if (floor != null) {
                floors.add(
                        new DatePlot.Value(at, floor / MEGA, VerdictHead.state(digest.outcome()), Units.rate(floor)));
                demand = run.demandBytesPerSecond();
            }
            Double backlog = run.peakBacklogMs();
            if (backlog != null) {
                backlogs.add(new DatePlot.Value(at, backlog, VerdictHead.state(digest.outcome()), Units.ms(backlog)));
                buffer = run.bufferMs();
            }
        }
        List<DateChart> charts = new ArrayList<>();
        if (floors.size() >= LEAST_DRAWN) {
            charts.add(DatePlot.of(
                    "Floor" + like(latest),
                    "Chart: the floor of each run over time, with the demand of the latest session",
                    "The lowest lasting write rate was " + first(floors) + " at first and " + last(floors)
                            + " in the latest run.",
                    "MB/s",
                    floors,
                    demand / MEGA,
                    "demand " + Units.rate(demand)));
        }
        if (backlogs.size() >= LEAST_DRAWN) {
            charts.add(DatePlot.of(
                    "Peak backlog" + like(latest),
                    "Chart: the peak backlog of each run over time, with the buffer of the latest session's recorder",
                    "The drive fell " + first(backlogs) + " behind at most at first and " + last(backlogs)
                            + " in the latest run.",
                    "ms",
                    backlogs,
                    buffer,
                    "buffer " + Units.ms(buffer)));
        }
        return charts;
    }

    private static String like(@Nullable RecordDigest latest) {
        return latest == null ? "" : " in each " + latest.plan() + " for " + latest.session();
    }

    private static String first(List<DatePlot.Value> values) {
        return values.get(0).text();
    }

    private static String last(List<DatePlot.Value> values) {
        return values.get(values.size() - 1).text();
    }
}
