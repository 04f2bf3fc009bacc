package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.DriveFacts;

/** The drives that jobs can be done on; {@link Rooms#drives} lists them all. */
public final class Drives {

    private Drives() {}

    /**
     * The drive {@code path} lies on.
     *
     * @throws Problem if there is no such path, or its drive cannot be reached
     */
    public static FoundDrive at(Rooms rooms, Path path) {
        if (path.toString().isEmpty()) {
            throw Problem.askedWrong(
                    "the PATH given is empty",
                    "name a folder on the drive; in a script, see whether its variable is set");
        }
        try {
            return rooms.driveAt(path);
        } catch (NoSuchFileException missing) {
            throw Problem.askedWrong(
                    "there is no folder or file " + Inert.quoted(path),
                    "give the folder the drive is mounted at: tracksoak drives lists them");
        } catch (IOException unreachable) {
            throw Problem.cannot(
                    "the drive at " + Inert.quoted(path) + " cannot be reached: " + unreachable.getMessage(),
                    "plug it in again, mount it, and try again");
        }
    }

    /** Maker and model as the drive reports them, else the device's name. As it came: not yet {@link Inert}. */
    public static String name(DriveFacts facts) {
        List<String> words = new ArrayList<>();
        add(words, facts.maker());
        add(words, facts.model());
        if (words.isEmpty()) {
            words.add(facts.node() == null ? "unknown" : facts.node());
        }
        return String.join(" ", words);
    }

    private static void add(List<String> words, @Nullable String word) {
        if (word != null && !word.isBlank()) {
            words.add(word.strip());
        }
    }
}
