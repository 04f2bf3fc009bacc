package tracksoak.bench.command.console;

import java.nio.file.Path;
import tracksoak.profiles.base.Inert;

/** Words of a command that can be copied to a shell as they stand. */
public final class ShellWord {

    private ShellWord() {}

    /** A path; put between quotes where a shell would else take it apart. */
    public static String of(Path path) {
        return of(path.toString());
    }

    /** Any word. */
    public static String of(String word) {
        if (word.matches("[A-Za-z0-9_./:@%+=,-]+")) {
            return word;
        }
        String shown = Inert.whole(word);
        return java.io.File.separatorChar == '\\' ? '"' + shown + '"' : "'" + shown.replace("'", "'\\''") + "'";
    }
}
