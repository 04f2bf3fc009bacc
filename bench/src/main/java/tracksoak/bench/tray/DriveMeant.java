package tracksoak.bench.tray;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Drives;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/**
 * What tells the drive a run was asked for from another one that may be in its place when the run begins. Texts come from hardware and
 * may hold anything; null means unknown.
 *
 * @param model maker and model, as the drive reports them
 * @param serial serial number
 * @param sizeBytes size of the whole drive in bytes
 * @param mount where its file system is mounted
 * @param fileSystem type in lower case
 * @param fileSystemBytes size of the file system in bytes
 * @param volumeId what its volume was given when it was formatted
 */
public record DriveMeant(
        @Nullable String model,
        @Nullable String serial,
        @Nullable Long sizeBytes,
        @Nullable String mount,
        @Nullable String fileSystem,
        @Nullable Long fileSystemBytes,
        @Nullable String volumeId) {

    /** The drive as it is now. */
    public static DriveMeant of(FoundDrive drive) {
        DriveFacts facts = drive.facts();
        // of a drive that did not answer in time the system only guesses these
        boolean answered = facts.freeBytes() != null;
        return new DriveMeant(
                facts.maker() == null && facts.model() == null ? null : Drives.name(facts),
                facts.serial(),
                facts.sizeBytes(),
                facts.mount(),
                answered ? facts.fileSystem() : null,
                answered ? facts.fileSystemBytes() : null,
                drive.volumeId());
    }

    /** Whether another look may have been at the same drive: nothing that both know differs. */
    public boolean maybe(DriveMeant other) {
        return alike(model, other.model)
                && alike(serial, other.serial)
                && alike(sizeBytes, other.sizeBytes)
                && alike(mount, other.mount)
                && alike(fileSystem, other.fileSystem)
                && alike(fileSystemBytes, other.fileSystemBytes)
                && alike(volumeId, other.volumeId);
    }

    private static boolean alike(@Nullable Object one, @Nullable Object other) {
        return one == null || other == null || Objects.equals(one, other);
    }

    /** Which drive it is, in words that are harmless to look at. */
    public String words() {
        List<String> words = new ArrayList<>(List.of(model == null ? "a drive without a name" : Inert.whole(model)));
        add(words, sizeBytes == null ? null : Units.bytes(sizeBytes));
        add(words, serial == null ? null : "serial number " + Inert.whole(serial));
        add(words, TradeName.orNull(fileSystem == null ? null : Inert.whole(fileSystem)));
        add(words, fileSystemBytes == null ? null : "volume of " + Units.bytes(fileSystemBytes));
        add(words, volumeId == null ? null : "volume number " + Inert.whole(volumeId));
        return String.join(", ", words);
    }

    private static void add(List<String> words, @Nullable String word) {
        if (word != null) {
            words.add(word);
        }
    }
}
