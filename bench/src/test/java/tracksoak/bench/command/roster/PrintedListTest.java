package tracksoak.bench.command.roster;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.ExchangeFile;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.store.RosterPlace;

/**
 * Equal sets of events give equal bytes of {@code roster list --json} as it is printed, in whatever order and by whatever way they came: through
 * the program, an export and an import, some events twice. Only the hour of asking is another. Two seeds in each build, 200 at night.
 */
class PrintedListTest {

    private static final int LAPTOPS = 5;
    private final Instant first = RosterAccess.clock().instant().minus(Duration.ofDays(60));

    @TempDir
    Path folder;

    private final List<TesterKey> people =
            List.of("Ada", "Bea", "Eve").stream().map(TesterKey::create).toList();

    private List<Parcel> events(Random random) {
        List<Parcel> events = new ArrayList<>();
        for (TesterKey known : people.subList(0, 2)) {
            events.add(new Parcel(
                    EventDraft.addKey(known.verifyKey(), known.name(), "").sign(known, first), null));
        }
        for (int i = 0; i < 14; i++) {
            String serial = "B4RN-000" + random.nextInt(4);
            Instant ended = first.plusSeconds(random.nextInt(50 * 86_400));
            Shows show = random.nextInt(3) == 0 ? Shows.fail(serial, ended) : Shows.pass(serial, ended);
            TesterKey signer = people.get(random.nextInt(people.size()));
            SignedRecord record = show.signed(signer);
            TesterKey author = people.get(random.nextInt(people.size()));
            SignedRecord told = random.nextInt(4) == 0
                    ? SignedRecord.kept(record.canonical(), record.by(), record.key(), new byte[0])
                    : record;
            RosterEvent event = EventDraft.record(told, random.nextBoolean() ? null : "S-0" + random.nextInt(4))
                    .sign(author, ended.plusSeconds(60));
            events.add(new Parcel(event, Intake.pack(record.canonical())));
            if (random.nextInt(4) == 0) {
                events.add(new Parcel(
                        EventDraft.withdraw(String.valueOf(event.drive()), "fell off the truck")
                                .sign(author, ended.plusSeconds(90)),
                        null));
            }
        }
        return events;
    }

    private String printed(Rooms rooms, Path file) {
        Typed typed = Typed.run(rooms, "roster", "list", "--json", "--roster", file.toString());
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out()).containsOnlyOnce("\"at\"");
        return typed.out().replaceFirst("\"at\" ?: ?\"[^\"]*\"", "");
    }

    private void crew(long seed) throws IOException {
        Random random = Seeded.random(seed);
        Path own = Files.createDirectory(folder.resolve("crew-" + seed));
        Rooms rooms = new TestRooms(Files.createDirectory(own.resolve("host")), List.of());
        List<Parcel> events = events(random);
        List<String> said = new ArrayList<>();
        for (int laptop = 0; laptop < LAPTOPS; laptop++) {
            Path file = own.resolve(laptop + ".db");
            List<Parcel> mine = new ArrayList<>(events);
            mine.addAll(events.subList(0, random.nextInt(events.size())));
            Collections.shuffle(mine, random);
            try (Roster roster = Roster.open(RosterPlace.sqlite(file), RosterAccess.clock())) {
                for (int at = 0; at < mine.size(); ) {
                    int until = Math.min(mine.size(), at + 1 + random.nextInt(6));
                    assertThat(roster.take(mine.subList(at, until)).refused()).isEmpty();
                    at = until;
                }
                if (laptop == 0) {
                    try (OutputStream out = Files.newOutputStream(own.resolve("all.roster"))) {
                        assertThat(ExchangeFile.write(roster.peer(), out)).isEqualTo(events.size());
                    }
                }
            }
            said.add(printed(rooms, file));
        }
        Path late = own.resolve("late.db");
        Typed imported = Typed.run(
                rooms,
                "roster",
                "import",
                own.resolve("all.roster").toString(),
                "--new-keys",
                "--roster",
                late.toString());
        assertThat(imported.code()).as(imported.err()).isZero();
        said.add(printed(rooms, late));
        assertThat(said).as("seed %d", seed).allMatch(said.get(0)::equals);
        assertThat(said.get(0)).contains("B4RN-000");
    }

    @Test
    void equalSetsArePrintedAlike() throws IOException {
        for (long seed : List.of(1L, 2L)) {
            crew(seed);
        }
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void equalSetsArePrintedAlikeAllNight() throws IOException {
        for (long seed = 100; seed < 300; seed++) {
            crew(seed);
        }
    }
}
