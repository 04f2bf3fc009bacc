package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.find.Suitability;
import tracksoak.bench.drive.folder.KeepsakeFolder;
import tracksoak.bench.drive.folder.LeftOver;
import tracksoak.bench.drive.folder.RunLock;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;

/** Takes away what earlier runs left in a folder of a drive. Deletes nothing it is not told to. */
public final class Clear {

    private static final String OWNER = "clear";

    private final Rooms rooms;
    private final Path path;
    private final FoundDrive drive;

    /** @throws Problem if there is no such folder, or its drive cannot be reached */
    public Clear(Rooms rooms, Path path) {
        this.rooms = rooms;
        this.path = path;
        this.drive = Drives.at(rooms, path);
        if (!Files.isDirectory(path)) {
            throw Problem.askedWrong(
                    Inert.quoted(path) + " is no folder", "give the folder that was given to tracksoak qualify");
        }
    }

    /**
     * What a run that was cut short left.
     *
     * @param bytes room it takes, null if that cannot be told
     * @param deleted whether it is gone now
     * @param kept why it was to be deleted and is not, null otherwise
     */
    public record Folder(
            LeftOver leftOver,
            @Nullable Long bytes,
            boolean deleted,
            @Nullable Problem kept) {

        /** Where it lies, what it takes, and of which test it is. */
        public String inShort() {
            return leftOver.folder() + ", "
                    + (bytes == null ? "" : Units.bytes(bytes) + ", ")
                    + "of the test of " + Times.minute(leftOver.startedAt());
        }
    }

    /**
     * A keepsake that was asked for by its name.
     *
     * @param there whether its folder lies on the drive; otherwise only this computer remembers it
     * @param bytes room it takes, null where it is not there
     * @param unreadable this computer's own lists that could not be used
     */
    public record Named(boolean there, @Nullable Long bytes, List<Problem> unreadable) {}

    /**
     * What runs that were cut short left here.
     *
     * @param really whether to delete it
     * @param told each in turn
     * @return how many there are
     * @throws Problem if the folder cannot be looked into, or the drive cannot be locked
     */
    public int leftOvers(boolean really, Consumer<Folder> told) {
        List<LeftOver> left = Preflight.leftOvers(path);
        if (!really || left.isEmpty()) {
            left.forEach(one -> told.accept(new Folder(one, bytes(one), false, null)));
            return left.size();
        }
        try (RunLock lock = RunLock.take(rooms.stateFolder(), drive.lockKey(), OWNER)) {
            left.forEach(one -> told.accept(deleted(one, lock)));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the drive cannot be locked (" + Problem.reason(refused) + ")", "wait until the run on it ends");
        }
        return left.size();
    }

    private static Folder deleted(LeftOver one, RunLock lock) {
        Long bytes = bytes(one);
        try {
            one.clear(lock);
            return new Folder(one, bytes, true, null);
        } catch (IOException refused) {
            return new Folder(one, bytes, false, notDeleted(one.folder().toString(), refused));
        }
    }

    /** Why the volume should not be recorded on as it is, empty if nothing speaks against that. */
    public String warning() {
        return Suitability.dirty(drive.facts())
                ? "this volume was not unmounted in order: " + Suitability.MEND + " before it is recorded on"
                : "";
    }

    /** What was left here on purpose. */
    public KeepsakesLeft keepsakes() {
        return KeepsakesLeft.in(path, KeepsakeShelf.in(rooms).read(), SystemClocks.EPOCH);
    }

    /**
     * A keepsake, and this computer's list of it.
     *
     * @param name name of its folder
     * @param really whether to delete both
     */
    public Named keepsake(String name, boolean really) {
        KeepsakeShelf shelf = KeepsakeShelf.in(rooms);
        KeepsakeShelf.Contents lists = shelf.read();
        Optional<KeepsakeList> list = lists.own(name);
        try {
            Optional<KeepsakeFolder> folder = KeepsakeFolder.under(path).stream()
                    .filter(each -> each.name().equals(name))
                    .findFirst();
            if (folder.isEmpty() && list.isEmpty()) {
                throw Problem.askedWrong(
                        "no keepsake named " + Inert.quoted(name) + " lies in " + Inert.quoted(path),
                        "give the name of its folder, TRACKSOAK-KEEPSAKE- and eight letters");
            }
            Long bytes = folder.isPresent() ? (Long) folder.get().bytes() : null;
            if (really && folder.isPresent()) {
                try (RunLock lock = RunLock.take(rooms.stateFolder(), drive.lockKey(), OWNER)) {
                    folder.get().clear(lock);
                }
            }
            if (really && list.isPresent()) {
                shelf.forget(list.get().runId());
            }
            return new Named(folder.isPresent(), bytes, lists.unreadable());
        } catch (IOException refused) {
            throw notDeleted(name, refused);
        }
    }

    /** Why a folder stays: what lies in it, is open or goes on, which says itself what to do, or what the drive answered. */
    static Problem notDeleted(String folder, IOException refused) {
        boolean said = refused instanceof LeftOver.NotOursException
                || refused instanceof LeftOver.InUseException
                || refused instanceof RunLock.DriveInUseException;
        return said
                ? Problem.cannot(Inert.whole(String.valueOf(refused.getMessage())), "")
                : Problem.cannot(
                        Inert.quoted(folder) + " was not deleted, or not all of it (" + Problem.reason(refused) + ")",
                        "see that the drive takes writes (its lock switch, how it is mounted), then clear again");
    }

    private static @Nullable Long bytes(LeftOver one) {
        try {
            return one.bytes();
        } catch (IOException unknown) {
            return null;
        }
    }
}
