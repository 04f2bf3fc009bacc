package tracksoak.report.roster.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;

/**
 * Reads what can be read of a damaged SQLite file: as a database until that breaks, then from its bytes. What it hands over is checked by
 * whoever takes it. One thread.
 */
public final class Salvage {

    private static final int BATCH = 50;
    private static final long BATCH_BYTES = 16L << 20;
    private static final String ALL = "SELECT e.body, r.gzip FROM event e"
            + " LEFT JOIN record_body r ON r.sha256 = e.record_sha ORDER BY e.rowid";

    /**
     * What came of it.
     *
     * @param events events taken
     * @param lost further events whose names the file holds
     * @param whole whether that is all there was for certain: the database came to its end, and none is lost
     */
    public record Result(int events, int lost, boolean whole) {}

    private final Function<List<Parcel>, Receipt> take;
    /** Names of events taken, or waiting to be. */
    private final Set<String> handed = new HashSet<>();

    private final Set<String> refused = new HashSet<>();
    private final List<Parcel> batch = new ArrayList<>();
    private long batchBytes;

    private Salvage(Function<List<Parcel>, Receipt> take) {
        this.take = take;
    }

    /**
     * What SQLite finds wrong with a file.
     *
     * @return none where it is whole
     * @throws Problem if it is locked, cannot be read, or is no roster
     */
    public static Optional<String> damage(Path file) {
        FileHeader.check(file);
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(Settings.USUAL.busyMs());
        try (Connection connection = config.createConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery("PRAGMA integrity_check(1)")) {
            String found = rows.next() ? rows.getString(1) : "it could not be looked over";
            return "ok".equals(found) ? Optional.empty() : Optional.of(Inert.text(place(found)));
        } catch (SQLException e) {
            Problem trouble = StoreProblems.of(e, RosterPlace.sqlite(file));
            if (trouble.kind() == Problem.Kind.CORRUPT) {
                return Optional.of("it cannot be read as a database");
            }
            throw trouble;
        }
    }

    /** The line that says where, after one that names the database. */
    private static String place(@Nullable String found) {
        return String.valueOf(found).lines().reduce((first, second) -> second).orElse("it is not said where");
    }

    /**
     * Refuses a file that is no roster, as {@link #damage} does.
     *
     * @throws Problem if it is none
     */
    public static void check(Path file) {
        FileHeader.check(file);
    }

    /**
     * Hands over the events it finds, each until it is taken. Never throws for what is damaged.
     *
     * @param take says what became of those handed over
     */
    public static Result read(Path damaged, Function<List<Parcel>, Receipt> take) {
        Salvage salvage = new Salvage(take);
        boolean through = salvage.asDatabase(damaged);
        Set<String> refused = Set.copyOf(salvage.refused);
        Set<String> lost = salvage.fromBytes(damaged);
        lost.removeAll(salvage.handed);
        boolean mended = salvage.handed.containsAll(refused);
        return new Result(salvage.handed.size(), lost.size(), through && mended && lost.isEmpty());
    }

    /** Whether it came to the end, and each row was an event. */
    private boolean asDatabase(Path damaged) {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(Settings.USUAL.busyMs());
        boolean whole = true;
        try (Connection connection = config.createConnection("jdbc:sqlite:" + damaged);
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(ALL)) {
            while (rows.next()) {
                String body = rows.getString(1);
                byte[] gzip = rows.getBytes(2);
                Optional<RosterEvent> event =
                        body == null ? Optional.empty() : event(body.getBytes(StandardCharsets.UTF_8));
                event.ifPresent(one -> hand(one, one.record() == null ? null : gzip));
                whole &= event.isPresent();
            }
        } catch (SQLException e) {
            whole = false;
        }
        flush();
        return whole;
    }

    /** Names of the events that the bytes speak of. */
    private Set<String> fromBytes(Path damaged) {
        try (FilePages places = new FilePages(damaged);
                FilePages pages = new FilePages(damaged)) {
            places.index();
            pages.events((json, inPlace) -> event(json)
                    // a key gives trust, and whoever's record is kept here chose its bytes: it must be a row, not what
                    // a row holds
                    .filter(one -> inPlace || one.kind() != EventKind.KEY_ADDED)
                    .filter(one -> !handed.contains(one.ref()))
                    .ifPresent(one -> hand(one, body(places, one.record()))));
            flush();
            return places.names();
        } catch (IOException unreadable) {
            flush();
            return new HashSet<>();
        }
    }

    private static byte @Nullable [] body(FilePages places, @Nullable RecordRef record) {
        for (int i = 0; record != null && i < places.copies(record.sha256()); i++) {
            try {
                Optional<byte[]> gzip = places.body(record.sha256(), i);
                if (gzip.isPresent()
                        && Digests.sha256Hex(Intake.unpack(gzip.get())).equals(record.sha256())) {
                    return gzip.get();
                }
            } catch (IOException damaged) {
                // the next copy may be whole
            }
        }
        return null;
    }

    private void hand(RosterEvent event, byte @Nullable [] gzip) {
        if (handed.add(event.ref())) {
            batch.add(new Parcel(event, gzip));
            batchBytes += gzip == null ? 0 : gzip.length;
            if (batch.size() >= BATCH || batchBytes > BATCH_BYTES) {
                flush();
            }
        }
    }

    private void flush() {
        if (!batch.isEmpty()) {
            take.apply(List.copyOf(batch)).refused().stream()
                    .map(Receipt.Refusal::event)
                    .filter(handed::remove)
                    .forEach(refused::add);
        }
        batch.clear();
        batchBytes = 0;
    }

    /** None for what is damaged: the next may be whole. */
    private static Optional<RosterEvent> event(byte[] json) {
        try {
            return Optional.of(EventJson.read(json));
        } catch (Problem damaged) {
            return Optional.empty();
        }
    }
}
