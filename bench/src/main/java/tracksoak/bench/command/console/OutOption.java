package tracksoak.bench.command.console;

import java.nio.file.Path;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFolder;
import tracksoak.profiles.base.SystemClocks;

/** Where on this computer the record and its page are kept. */
public final class OutOption {

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description =
                    "Put the record and its page here; not on the drive under test. Without it: a new folder of your "
                            + "records.")
    @Nullable
    Path asked;

    public OutOption() {}

    /** One that was asked for in other words. */
    public OutOption(@Nullable Path asked) {
        this.asked = asked;
    }

    /** The folder for what has the given id. Nothing is made yet. */
    public Path folder(Rooms rooms, UUID id) {
        Path given = asked;
        return given != null ? given : RunFolder.usual(rooms.recordsFolder(), SystemClocks.EPOCH, id);
    }
}
