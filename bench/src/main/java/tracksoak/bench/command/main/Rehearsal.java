package tracksoak.bench.command.main;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Terminals;
import tracksoak.bench.command.demo.DemoRoster;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.report.roster.store.NativeLibrary;
import tracksoak.report.roster.store.RosterPlace;

/**
 * Runs a few short commands on a roster of its own, so that the launcher's class archive holds what they load. A program of its own, since an
 * archive is made of one process.
 */
public final class Rehearsal {

    private static final List<List<String>> SCENES = List.of(
            List.of("drives", "--json"),
            List.of("roster", "list", "--session", "trio-8"),
            List.of("roster", "list", "--json"),
            List.of("roster", "list", "--standing", "cleared"));

    private static final String NOWHERE = "postgresql://127.0.0.1:1/nowhere";

    private Rehearsal() {}

    /**
     * Rehearses in a folder that is new, and gone afterwards.
     *
     * @param args a folder to unpack the database's own library into, or nothing
     */
    public static void main(String[] args) throws IOException {
        if (args.length > 0) {
            NativeLibrary.unpack(Path.of(args[0]));
        }
        Path folder = Files.createTempDirectory("tracksoak");
        try {
            rehearse(folder);
        } finally {
            try (Stream<Path> made = Files.walk(folder)) {
                for (Path path : made.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(path);
                }
            }
        }
    }

    private static void rehearse(Path folder) {
        Console console = Terminals.ofThisProcess();
        Rooms rooms = new ThisMachine();
        new DemoRoster(RosterAccess.clock().instant(), 1, rooms.host()).begin(folder);
        String file = folder.resolve(RosterPlace.FILE).toString();
        for (List<String> scene : SCENES) {
            List<String> words = scene.get(0).equals("roster")
                    ? Stream.concat(scene.stream(), Stream.of("--roster", file)).toList()
                    : scene;
            Main.run(console, words);
        }
        // nobody answers there; by then the other database's driver is loaded
        Main.run(console, List.of("roster", "list", "--standing", "cleared", "--roster", NOWHERE));
        console.out().flush();
        console.err().flush();
    }
}
