package tracksoak.report.roster.store;

import java.nio.file.Path;
import java.util.Map;
import java.util.Objects;
import javax.sql.DataSource;
import org.postgresql.ds.PGSimpleDataSource;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/** What differs between the two databases: how to connect, the name of one type, and that SQLite takes longer texts as it is. */
enum Dialect {
    SQLITE("BLOB", "UPDATE roster_state SET derived = 0", 4) {
        @Override
        DataSource source(RosterPlace place, Settings settings) {
            Path file = Objects.requireNonNull(place.file());
            SQLiteConfig config = new SQLiteConfig();
            if (WriteProtected.is(file)) {
                config.setReadOnly(true);
                config.setBusyTimeout(settings.busyMs());
                SQLiteDataSource source = new SQLiteDataSource(config);
                source.setUrl(WriteProtected.whole(file) ? WriteProtected.address(file) : "jdbc:sqlite:" + file);
                return source;
            }
            config.setJournalMode(SQLiteConfig.JournalMode.WAL);
            config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
            config.setBusyTimeout(settings.busyMs());
            if (settings.mostPages() > 0) {
                config.setPragma(SQLiteConfig.Pragma.MAX_PAGE_COUNT, Integer.toString(settings.mostPages()));
            }
            SQLiteDataSource source = new SQLiteDataSource(config);
            source.setUrl("jdbc:sqlite:" + file);
            return source;
        }
    },
    POSTGRES("BYTEA", "ALTER TABLE event ALTER COLUMN ref TYPE VARCHAR(80)", 16) {
        @Override
        DataSource source(RosterPlace place, Settings settings) {
            PGSimpleDataSource source = new PGSimpleDataSource();
            source.setUser(place.user());
            source.setPassword(place.password());
            source.setConnectTimeout(10);
            source.setSocketTimeout(60);
            source.setTcpKeepAlive(true);
            source.setApplicationName("tracksoak roster");
            source.setURL(Objects.requireNonNull(place.url()));
            return source;
        }
    };

    private final String blob;
    private final String longerNames;
    private final int mostConnections;

    Dialect(String blob, String longerNames, int mostConnections) {
        this.blob = blob;
        this.longerNames = longerNames;
        this.mostConnections = mostConnections;
    }

    static Dialect of(RosterPlace place) {
        return place.file() == null ? POSTGRES : SQLITE;
    }

    /** Where connections come from, as the place is now. */
    abstract DataSource source(RosterPlace place, Settings settings);

    Map<String, String> placeholders() {
        return Map.of("blob", blob, "longer_names", longerNames);
    }

    int mostConnections() {
        return mostConnections;
    }
}
