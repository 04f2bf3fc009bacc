package tracksoak.bench.command;

import java.io.PrintWriter;

/** Names and values for people, one pair a line, the values below each other. */
final class Fields {

    private static final int WIDTH = 16;

    private final PrintWriter out;

    Fields(PrintWriter out) {
        this.out = out;
    }

    /** Prints one pair; the value may come from outside. */
    Fields add(String name, String value) {
        out.println("  " + name + " ".repeat(Math.max(1, WIDTH - name.length())) + Words.plain(value));
        return this;
    }
}
