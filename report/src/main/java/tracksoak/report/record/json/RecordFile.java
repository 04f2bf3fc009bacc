package tracksoak.report.record.json;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;

/**
 * Run records in files. Saving replaces the file as a whole: a reader, or a crash, sees the old record or the new one and
 * nothing between. Any thread, one at a time per file.
 */
public final class RecordFile {

    private RecordFile() {}

    /**
     * Saves a record. The file is readable by its owner only where the system has such a thing.
     *
     * @throws RecordException if the folder cannot be written
     */
    public static void save(Path file, RunRecord record) {
        RecordJson.save(file, record);
    }

    static void save(Path file, byte[] json, String cannot) {
        Path target = file.toAbsolutePath();
        if (target.getParent() == null) {
            throw new RecordException(cannot, target.toString(), "it is no file", "name a file in a folder");
        }
        try {
            AtomicFile.write(target, json);
        } catch (IOException e) {
            throw new RecordException(
                    cannot,
                    target.toString(),
                    reason(e),
                    "check that the folder can be written and has room, or choose another",
                    e);
        }
    }

    /**
     * Loads a record of any version known.
     *
     * @throws RecordException if there is none, or it cannot be read
     */
    public static RunRecord load(Path file) {
        byte[] json;
        try (InputStream in = Files.newInputStream(file)) {
            json = in.readNBytes(RecordJson.MOST_BYTES + 1);
        } catch (IOException e) {
            throw new RecordException(
                    "the run record cannot be loaded", file.toString(), reason(e), "give the record.json of a run", e);
        }
        try {
            return RecordJson.read(json);
        } catch (RecordException e) {
            throw e.in(file.toString());
        }
    }

    private static String reason(IOException e) {
        return e instanceof NoSuchFileException ? "there is no such file" : Inert.whole(Failure.words(e));
    }
}
