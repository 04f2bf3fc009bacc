package tracksoak.bench.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.job.Rooms;

/** A host and one roomy drive. In what is typed there DRIVE, HOST and OUT stand for the folders they name. */
public abstract class AtOneDrive {

    @TempDir
    public Path folder;

    public Path host;
    public Path drive;
    public Path out;
    public Rooms rooms;

    @BeforeEach
    void furnish() throws IOException {
        host = Files.createDirectory(folder.resolve("host"));
        drive = Files.createDirectory(folder.resolve("drive"));
        out = host.resolve("out");
        rooms = new TestRooms(host, List.of(TestRooms.roomy(drive)));
    }

    public Typed type(String line, String... more) {
        Stream<String> words = Stream.of(line.split(" "))
                .map(word -> word.replace("DRIVE", drive.toString())
                        .replace("HOST", host.toString())
                        .replace("OUT", out.toString()));
        return Typed.run(rooms, Stream.concat(words, Stream.of(more)).toArray(String[]::new));
    }
}
