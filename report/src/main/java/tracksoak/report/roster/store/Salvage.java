package tracksoak.report.roster.store;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Parcel;

/** Reads what can be read of a damaged SQLite file: from the front until it breaks, then from the back. */
public final class Salvage {

    private static final int BATCH = 50;
    private static final String ALL = "SELECT e.body, r.gzip FROM event e"
            + " LEFT JOIN record_body r ON r.sha256 = e.record_sha ORDER BY e.rowid ";

    private Salvage() {}

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
            return "ok".equals(found) ? Optional.empty() : Optional.of(Inert.text(String.valueOf(found)));
        } catch (SQLException e) {
            Problem trouble = StoreProblems.of(e, RosterPlace.sqlite(file));
            if (trouble.kind() == Problem.Kind.CORRUPT) {
                return Optional.of("it cannot be read as a database");
            }
            throw trouble;
        }
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
     * Hands over the events it finds, some of them twice. Never throws for what is damaged.
     *
     * @return whether it came through the whole file
     */
    public static boolean read(Path damaged, Consumer<List<Parcel>> found) {
        return pass(damaged, "ASC", found) || pass(damaged, "DESC", found);
    }

    /** Whether the pass came to its end. */
    private static boolean pass(Path damaged, String order, Consumer<List<Parcel>> found) {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(Settings.USUAL.busyMs());
        List<Parcel> batch = new ArrayList<>();
        boolean whole;
        try (Connection connection = config.createConnection("jdbc:sqlite:" + damaged);
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(ALL + order)) {
            while (rows.next()) {
                String body = rows.getString(1);
                byte[] gzip = rows.getBytes(2);
                if (body != null) {
                    parcel(body, gzip).ifPresent(batch::add);
                }
                if (batch.size() >= BATCH) {
                    found.accept(List.copyOf(batch));
                    batch.clear();
                }
            }
            whole = true;
        } catch (SQLException e) {
            whole = false;
        }
        if (!batch.isEmpty()) {
            found.accept(batch);
        }
        return whole;
    }

    /** None for a damaged row: the next may be whole. */
    private static Optional<Parcel> parcel(String body, byte @Nullable [] gzip) {
        try {
            RosterEvent event = EventJson.read(body.getBytes(StandardCharsets.UTF_8));
            return Optional.of(new Parcel(event, event.record() == null ? null : gzip));
        } catch (Problem e) {
            return Optional.empty();
        }
    }
}
