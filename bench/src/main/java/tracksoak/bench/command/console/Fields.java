package tracksoak.bench.command.console;

import java.io.PrintWriter;
import java.util.List;
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

    /** Prints one name with as many values as there are, each on a line; nothing where there are none. */
    public Fields addAll(String name, List<String> values) {
        for (int i = 0; i < values.size(); i++) {
            add(i == 0 ? name : "", values.get(i));
        }
        return this;
    }
}
