package tracksoak.bench.command.console;

import java.io.PrintWriter;
import tracksoak.profiles.base.Inert;

/** Text for people, wrapped at the width of their window. What it prints may come from outside. One thread. */
public final class Wrapped {

    private final PrintWriter out;
    private final int columns;

    public Wrapped(Console console) {
        this(console.out(), console.columns());
    }

    Wrapped(PrintWriter out, int columns) {
        this.out = out;
        this.columns = columns;
    }

    /** Prints {@code text} after {@code lead}; lines that follow stand below the text's beginning. */
    public void print(String lead, String text) {
        print(lead, lead.length(), text);
    }

    /** The same with lines that follow {@code indent} columns in, for a lead that holds colours. */
    public void print(String lead, int indent, String text) {
        harmless(lead, indent, Inert.whole(text));
    }

    /** The same of text that is harmless already, on lines of its own where it has some. */
    void harmless(String lead, int indent, String text) {
        String before = lead;
        for (String line : text.split("\n", -1)) {
            wrap(before, indent, line);
            before = " ".repeat(indent);
        }
    }

    private void wrap(String lead, int indent, String text) {
        StringBuilder line = new StringBuilder(lead);
        int at = Math.max(indent, lead.indexOf('\033') < 0 ? lead.length() : 0);
        boolean empty = true;
        for (String word : text.split(" ", -1)) {
            int length = word.codePointCount(0, word.length());
            if (!empty && at + 1 + length > columns) {
                out.println(line);
                line.setLength(0);
                line.append(" ".repeat(indent));
                at = indent;
                empty = true;
            }
            if (!empty) {
                line.append(' ');
                at++;
            }
            line.append(word);
            at += length;
            empty = false;
        }
        out.println(line);
    }
}
