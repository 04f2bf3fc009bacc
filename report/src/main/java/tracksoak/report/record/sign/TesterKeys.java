package tracksoak.report.record.sign;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Set;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.OwnersOnly;
import tracksoak.report.record.facts.RecordException;

/**
 * Keeps a tester's key in a file of the user's data folder, made on first use, readable by its owner only where the system has
 * such a thing. Any thread, any number of processes: all get the same key.
 */
public final class TesterKeys {

    /** Name of the file. */
    public static final String FILE = "tester-key.json";

    private static final String CANNOT = "the tester's key cannot be used";
    private static final int MOST_BYTES = 4_096;

    private TesterKeys() {}

    /**
     * The key in a folder; a new one where there is none.
     *
     * @param folder made where it is not there
     * @param nameIfNew the tester's name for a new key, see {@link TesterName}; blank where nobody said one
     * @throws RecordException if the file cannot be read or made, is damaged, or others may read it
     */
    public static TesterKey openOrCreate(Path folder, String nameIfNew) {
        Path file = folder.resolve(FILE);
        try {
            if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
                // a second process that is quicker wins: both read the same key
                AtomicFile.create(
                        file,
                        TesterKeyJson.bytes(
                                nameIfNew.isBlank() ? TesterKey.createUnnamed() : TesterKey.create(nameIfNew)));
            }
            return read(file);
        } catch (IOException e) {
            throw new RecordException(
                    CANNOT, file.toString(), Inert.whole(Failure.words(e)), "check that the folder can be written", e);
        }
    }

    private static TesterKey read(Path file) throws IOException {
        onlyTheOwners(file);
        byte[] json;
        try (var in = Files.newInputStream(file)) {
            json = in.readNBytes(MOST_BYTES);
        }
        try {
            return TesterKeyJson.read(json);
        } catch (RecordException e) {
            throw e.in(file.toString());
        }
    }

    private static void onlyTheOwners(Path file) throws IOException {
        if (!OwnersOnly.posix(file)) {
            return;
        }
        Set<PosixFilePermission> others = EnumSet.copyOf(Files.getPosixFilePermissions(file));
        others.remove(PosixFilePermission.OWNER_READ);
        others.remove(PosixFilePermission.OWNER_WRITE);
        if (!others.isEmpty()) {
            throw new RecordException(
                    CANNOT,
                    file.toString(),
                    "others than its owner may use it ("
                            + PosixFilePermissions.toString(Files.getPosixFilePermissions(file)) + ")",
                    "if nobody did, run chmod 600 on it; else revoke the key and remove the file");
        }
    }
}
