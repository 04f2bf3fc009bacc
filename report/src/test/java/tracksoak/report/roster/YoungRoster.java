package tracksoak.report.roster;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;

/** Rosters just made, in which nothing is yet: copies of one, for to make each anew takes longer than most tests of it. Any thread. */
public final class YoungRoster {

    private static final byte[] YOUNG = made();

    private YoungRoster() {}

    /** Puts one into a file that is not there yet. */
    public static RosterPlace at(Path file) {
        try {
            Files.write(file, YOUNG);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return RosterPlace.sqlite(file);
    }

    private static byte[] made() {
        try {
            Path folder = Files.createTempDirectory("young-roster");
            Path file = folder.resolve(RosterPlace.FILE);
            try {
                SqlStore.open(RosterPlace.sqlite(file)).close();
                return Files.readAllBytes(file);
            } finally {
                Files.deleteIfExists(file);
                Files.delete(folder);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
