package tracksoak.bench.command.demo;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Consumer;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunExtras;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.TesterKeys;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.store.RosterPlace;

/** Fills a roster as a crew would have in the past months: simulated runs, entered and signed on their days, and a few words and decisions. */
public final class DemoRoster {

    private static final double HANG_LIMIT_S = 20;
    private static final long RESERVE = 256L << 20;
    private static final Duration AFTER_THE_RUN = Duration.ofHours(2);

    private final Instant now;
    private final long seed;
    private final HostFacts host;
    private Instant today;

    /**
     * @param now the end of the story
     * @param seed what is left to chance in the drives; the same story comes of the same seed
     */
    public DemoRoster(Instant now, long seed, HostFacts host) {
        this.now = now;
        this.seed = seed;
        this.host = host;
        this.today = now;
    }

    /**
     * Fills a roster.
     *
     * @param folder new; the roster and the testers' keys are made in it
     * @param told one line before each run
     * @return the records entered
     */
    public List<RunRecord> fill(Path folder, Consumer<String> told) {
        return fill(folder, told, DemoCrew.turns(), true);
    }

    /** Fills one with the first run of the story. */
    public void begin(Path folder) {
        fill(folder, line -> {}, DemoCrew.turns().subList(0, 1), false);
    }

    private List<RunRecord> fill(Path folder, Consumer<String> told, List<DemoCrew.Turn> turns, boolean whole) {
        TesterKey first = TesterKeys.openOrCreate(folder.resolve("first-tester"), DemoCrew.FIRST_TESTER);
        TesterKey second = TesterKeys.openOrCreate(folder.resolve("second-tester"), DemoCrew.SECOND_TESTER);
        List<RunRecord> records = new ArrayList<>();
        try (Roster roster = Roster.open(RosterPlace.sqlite(folder.resolve(RosterPlace.FILE)), () -> today)) {
            RosterDesk mira = roster.desk(first);
            RosterDesk tomke = roster.desk(second);
            for (DemoCrew.Turn turn : turns) {
                today = now.minus(Duration.ofDays(turn.daysAgo()));
                RunRecord record = run(turn, records.size());
                records.add(record);
                told.accept(turn.tag() + ": " + turn.plan().name().word() + " on the simulated " + turn.model() + ": "
                        + RunSummary.verdict(record).outcome().words());
                today = today.plus(AFTER_THE_RUN);
                TesterKey key = turn.second() ? second : first;
                roster.desk(key).enter(SignedRecord.sign(record, key), turn.tag());
            }
            if (whole) {
                decide(mira, tomke);
            }
        }
        return records;
    }

    private void decide(RosterDesk mira, RosterDesk tomke) {
        today = now.minus(Duration.ofDays(25));
        tomke.note("W-04", "stops to tidy up every two minutes; good enough for carrying files, not for a show");
        today = now.minus(Duration.ofDays(21));
        mira.withdraw("W-06", "plug is loose since the load-out in the rain");
        today = now.minus(Duration.ofDays(6));
        tomke.note("W-08", "the only disk left; test it again before the harvest fair");
    }

    private RunRecord run(DemoCrew.Turn turn, int index) {
        long own = seed * 1_000 + turn.number();
        SimulatedTarget target = new SimulatedTarget(
                SimulatedTarget.model(turn.model()).withSeed(own), today::toEpochMilli, HANG_LIMIT_S);
        UUID id = new UUID((today.toEpochMilli() << 16) | 0x7000 | index, 0x8000_0000_0000_0000L | own << 8 | index);
        Order order = new Order(
                id, turn.session(), turn.plan(), HANG_LIMIT_S, RESERVE, own, new RunExtras(turn.tag(), "", 0, null));
        try {
            return new Run(order.request(target.facts()), target, host, new Unheard()).call();
        } finally {
            target.clean();
        }
    }

    /** Nobody watches a run of months ago. */
    private static final class Unheard implements RunListener {

        @Override
        public void progress(Progress progress) {}

        @Override
        public void snapshot(RunRecord soFar) {}
    }
}
