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
        Connection connect(RosterPlace place, Settings settings) throws SQLException {
            SQLiteConfig config = new SQLiteConfig();
            config.setJournalMode(SQLiteConfig.JournalMode.WAL);
            config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
            config.setBusyTimeout(settings.busyMs());
            if (settings.mostPages() > 0) {
                config.setPragma(SQLiteConfig.Pragma.MAX_PAGE_COUNT, Integer.toString(settings.mostPages()));
            }
            return config.createConnection("jdbc:sqlite:" + place.file());
        }
    },
    POSTGRES("BYTEA", 16) {
        @Override
        Connection connect(RosterPlace place, Settings settings) throws SQLException {
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

    private final String blob;
    private final int mostConnections;

    Dialect(String blob, int mostConnections) {
        this.blob = blob;
        this.mostConnections = mostConnections;
    }

    static Dialect of(RosterPlace place) {
        return place.file() == null ? POSTGRES : SQLITE;
    }

    abstract Connection connect(RosterPlace place, Settings settings) throws SQLException;

    Map<String, String> placeholders() {
        return Map.of("blob", blob);
    }

    int mostConnections() {
        return mostConnections;
    }
}
