package tracksoak.bench.command.console;

import java.io.PrintWriter;
import tracksoak.profiles.base.Inert;

/** Names and values for people, one pair a line, the values below each other. */
public final class Fields {

    private static final int WIDTH = 16;

    private final PrintWriter out;

    public Fields(PrintWriter out) {
        this.out = out;
    }

    /** Prints one pair; the value may come from outside. */
    public Fields add(String name, String value) {
        out.println("  " + name + " ".repeat(Math.max(1, WIDTH - name.length())) + Inert.whole(value));
        return this;
    }
}
