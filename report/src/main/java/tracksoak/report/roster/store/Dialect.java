package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import org.sqlite.SQLiteConfig;
import tracksoak.report.roster.RosterPlace;

/** What differs between the two databases: how to connect, and the name of one type. */
enum Dialect {
    SQLITE("BLOB", 4) {
        @Override
        Connection connect(RosterPlace place) throws SQLException {
            SQLiteConfig config = new SQLiteConfig();
            config.setJournalMode(SQLiteConfig.JournalMode.WAL);
            config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
            config.setBusyTimeout(BUSY_MS);
            return config.createConnection("jdbc:sqlite:" + place.file());
        }
    },
    POSTGRES("BYTEA", 16) {
        @Override
        Connection connect(RosterPlace place) throws SQLException {
            Properties properties = new Properties();
            if (place.user() != null) {
                properties.setProperty("user", place.user());
            }
            if (place.password() != null) {
                properties.setProperty("password", place.password());
            }
            properties.setProperty("connectTimeout", "10");
            properties.setProperty("socketTimeout", "60");
            properties.setProperty("tcpKeepAlive", "true");
            properties.setProperty("ApplicationName", "tracksoak roster");
            return DriverManager.getConnection(Objects.requireNonNull(place.url()), properties);
        }
    };

    /** How long a writer waits for another, in ms. */
    private static final int BUSY_MS = 10_000;

    private final String blob;
    private final int mostConnections;

    Dialect(String blob, int mostConnections) {
        this.blob = blob;
        this.mostConnections = mostConnections;
    }

    static Dialect of(RosterPlace place) {
        return place.file() == null ? POSTGRES : SQLITE;
    }

    abstract Connection connect(RosterPlace place) throws SQLException;

    Map<String, String> placeholders() {
        return Map.of("blob", blob);
    }

    int mostConnections() {
        return mostConnections;
    }
}
