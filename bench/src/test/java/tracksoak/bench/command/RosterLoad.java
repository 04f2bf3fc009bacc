package tracksoak.bench.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import tracksoak.bench.command.demo.DemoRoster;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Seed;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.store.RosterPlace;

/**
 * Makes a roster of any size out of records of real size: those of the demo's runs, each with drive, date and id of its own, signed by one of
 * ten testers. The same seed makes the same drives and dates.
 */
final class RosterLoad {

    static final Instant NOW = Instant.parse("2026-05-17T18:00:00Z");
    private static final int TESTERS = 10;
    private static final int BATCH = 100;
    private static final int DAYS = 400;
    private static final int NEWS = 1_000_000;

    private final List<RunRecord> templates;
    private final List<TesterKey> testers;
    private final Random random;

    /** @param templates what the records are made of, see {@link #templates} */
    RosterLoad(List<RunRecord> templates, long seed) {
        this.templates = templates;
        this.testers = IntStream.range(0, TESTERS)
                .mapToObj(i -> TesterKey.create("Tester " + (i + 1)))
                .toList();
        this.random = new Random(seed);
    }

    /**
     * Does the demo's runs.
     *
     * @param scratch a new folder for the demo's own roster
     */
    static List<RunRecord> templates(Path scratch, long seed) {
        return new DemoRoster(NOW, seed, new TestRooms(scratch, List.of()).host()).fill(scratch, line -> {});
    }

    /** Enters so many records of so many drives, each drive tagged. */
    void fill(RosterPlace place, int drives, int records, Consumer<String> told) throws IOException {
        try (Roster roster = Roster.open(place, () -> NOW)) {
            roster.take(keys());
            for (int from = 0; from < records; from += BATCH) {
                List<long[]> drawn = new ArrayList<>();
                for (int i = from; i < Math.min(records, from + BATCH); i++) {
                    drawn.add(new long[] {i, random.nextInt(DAYS * 24 * 60), random.nextInt(templates.size())});
                }
                Receipt receipt = roster.take(drawn.parallelStream()
                        .map(one -> parcel((int) one[0], (int) one[0] % drives, one[1], (int) one[2]))
                        .toList());
                if (!receipt.refused().isEmpty()) {
                    throw new IOException(receipt.refused().get(0).why());
                }
                if ((from + BATCH) % 5_000 == 0) {
                    told.accept((from + BATCH) + " records");
                }
            }
        }
    }

    /** What makes the testers known. */
    List<Parcel> keys() {
        return testers.stream()
                .map(key -> new Parcel(
                        EventDraft.addKey(key.verifyKey(), key.name(), "").sign(key, NOW.minus(Duration.ofDays(DAYS))),
                        null))
                .toList();
    }

    /** New records, one after another, of these drives; a few minutes old. */
    List<Parcel> news(int drives, int records) {
        return random.ints(records, 0, drives)
                .mapToObj(drive -> parcel(NEWS + drive, drive, random.nextInt(60), random.nextInt(templates.size())))
                .toList();
    }

    /** A record of its own made of a template, so many minutes ago. */
    Parcel parcel(int number, int drive, long minutesAgo, int template) {
        TesterKey key = testers.get(number % TESTERS);
        Instant ended = NOW.minus(Duration.ofMinutes(minutesAgo));
        RunRecord run = templates.get(template);
        String tag = String.format(java.util.Locale.ROOT, "L-%05d", drive);
        RunRecord own = new RunRecord(
                run.schema(),
                new UUID((ended.toEpochMilli() << 16) | 0x7000, 0x8000_0000_0000_0000L | number).toString(),
                run.tool(),
                ended.minusSeconds(3_000).toString(),
                ended.toString(),
                run.state(),
                run.stateReason(),
                new Seed(number),
                run.session(),
                run.plan(),
                hardware(run.drive(), drive),
                tag,
                run.host(),
                run.method(),
                run.ready(),
                run.phases(),
                run.verdict());
        SignedRecord signed = SignedRecord.sign(own, key);
        return new Parcel(
                EventDraft.record(signed, tag).sign(key, ended.plusSeconds(60)), Intake.pack(signed.canonical()));
    }

    private static DriveFacts hardware(DriveFacts drive, int number) {
        return drive.but()
                .maker("simulated")
                .model("Stick " + number % 7)
                .serial("LW-" + (1_000_000 + number))
                .sizeBytes(64_000_000_000L + number % 7)
                .build();
    }
}
