package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.folder.KeepsakeFolder;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/**
 * The keepsakes in a folder, which stay where left-overs are cleared; what cannot be told of one is left open.
 *
 * @param unreadable this computer's own lists that could not be used
 */
public record KeepsakesLeft(List<One> all, List<Problem> unreadable) {

    private static final double DAY_MS = 86_400_000;

    /**
     * One of them.
     *
     * @param bytes room it takes, null if that cannot be told
     * @param writtenAt when it was left, null if neither this computer nor its own note says so
     * @param days since then, below 0 where that is in the future; null as before
     */
    public record One(
            KeepsakeFolder folder,
            @Nullable Long bytes,
            @Nullable Instant writtenAt,
            @Nullable Double days) {}

    /**
     * Looks for them.
     *
     * @throws Problem if the folder cannot be looked into
     */
    static KeepsakesLeft in(Path path, KeepsakeShelf.Contents shelf, EpochClock clock) {
        List<One> all = new ArrayList<>();
        try {
            for (KeepsakeFolder folder : KeepsakeFolder.under(path)) {
                Instant written = writtenAt(folder, shelf).orElse(null);
                all.add(new One(
                        folder, bytes(folder), written, written == null ? null : (Double) days(written, clock)));
            }
        } catch (IOException silent) {
            throw Problem.cannot(
                    "the folder " + Inert.quoted(path) + " cannot be looked into (" + Problem.reason(silent) + ")",
                    "plug the drive in again and try again");
        }
        return new KeepsakesLeft(all, shelf.unreadable());
    }

    private static double days(Instant since, EpochClock clock) {
        return Duration.between(since, Instant.ofEpochMilli(clock.epochMillis()))
                        .toMillis()
                / DAY_MS;
    }

    private static Optional<Instant> writtenAt(KeepsakeFolder folder, KeepsakeShelf.Contents shelf) {
        try {
            return shelf.listOf(folder).map(list -> Instant.parse(list.writtenAt()));
        } catch (IOException unreadable) {
            return Optional.empty();
        }
    }

    private static @Nullable Long bytes(KeepsakeFolder folder) {
        try {
            return folder.bytes();
        } catch (IOException unknown) {
            return null;
        }
    }
}
