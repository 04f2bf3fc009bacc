package tracksoak.bench.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** What a run leaves on a drive when its process is killed. */
public final class LeftBehind {

    private LeftBehind() {}

    /** The folder of a run whose process does not exist. */
    public static Path in(Path drive) throws IOException {
        Path left = Files.createDirectory(drive.resolve("TRACKSOAK-0c07398f"));
        Files.writeString(left.resolve(".tracksoak-run"), """
                tracksoak run folder 1
                A test run of a drive made this folder. When no run goes on it is safe to delete.
                run=017f22e2-79b0-7cc3-98c4-dc0c0c07398f
                started=2022-02-22T19:22:22Z
                pid=999999999
                pid-started=1
                record=/home/crew/record.json
                """);
        return left;
    }
}
