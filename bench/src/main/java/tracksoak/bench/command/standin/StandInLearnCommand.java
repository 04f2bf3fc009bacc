package tracksoak.bench.command.standin;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferReader;
import tracksoak.bench.standin.learn.Comparison;
import tracksoak.bench.standin.learn.Learner;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.bench.volume.ImageFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** Tells a recorder's pattern from what a stand-in wrote down. */
@Command(
        name = "learn",
        header = "Tell the recorder's pattern from a trace and the image it was recorded to.",
        description = {
            "Reads the file system of the image (FAT32 or exFAT) and finds the file each write belongs to. A trace of a probe "
                    + "also shows the buffer. Nothing is written but what you ask for with --session-out."
        },
        sortOptions = false)
public final class StandInLearnCommand extends JsonCommand {

    @Parameters(index = "0", paramLabel = "TRACE", description = "The trace that a stand-in wrote.")
    @SuppressWarnings("NullAway.Init")
    Path trace;

    @Parameters(index = "1", paramLabel = "IMAGE", description = "The image the recorder recorded to meanwhile.")
    @SuppressWarnings("NullAway.Init")
    Path image;

    @Mixin
    LearnOptions into = new LearnOptions();

    public StandInLearnCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        learn(trace, image, Both.other(into), into, json.asked, console, rooms);
        return Exit.DONE;
    }

    /** What one recording showed; the buffer is null where the drive never stopped. */
    record Both(Pattern pattern, @Nullable BufferFound buffer) {

        /** That of the other recording; null where none is named. */
        static @Nullable Both other(LearnOptions into) {
            if (into.against.size() > 2) {
                throw Problem.askedWrong("--against was given more than once", "name one other recording");
            }
            return into.against.isEmpty() ? null : of(into.against.get(0), into.against.get(1));
        }

        static Both of(Path trace, Path image) {
            try (ImageFile bytes = ImageFile.open(image)) {
                Pattern pattern = Learner.learn(trace, bytes);
                BufferFound buffer = BufferReader.read(trace, bytes);
                return new Both(pattern, buffer.tried().isEmpty() ? null : buffer);
            } catch (Problem unnamed) {
                throw unnamed.about(Inert.quoted(image));
            } catch (IOException unreadable) {
                throw new Problem(
                        Problem.Kind.REFUSED,
                        "The image cannot be read",
                        Inert.quoted(image),
                        unreadable instanceof NoSuchFileException
                                ? "there is no such file"
                                : Problem.reason(unreadable),
                        "check the path and its permissions");
            }
        }
    }

    /** Learns, shows, and writes the session where one was asked for. */
    static void learn(
            Path trace,
            Path image,
            @Nullable Both there,
            LearnOptions into,
            boolean json,
            Console console,
            Rooms rooms) {
        Both here = Both.of(trace, image);
        Comparison against =
                there == null ? null : Comparison.of(here.pattern, here.buffer, there.pattern, there.buffer);
        if (json) {
            Map<String, Object> document = JsonOption.document("stand-in-learn/1");
            LearnedText.put(document, here.pattern, here.buffer, against);
            console.out().println(JsonText.of(document));
            console.out().flush();
        } else {
            LearnedText.print(here.pattern, here.buffer, against, console.out());
        }
        into.write(here.pattern, here.buffer, against, rooms, console);
    }
}
