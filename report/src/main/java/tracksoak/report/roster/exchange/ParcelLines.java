package tracksoak.report.roster.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventName;

/**
 * Parcels as lines of text, one each: the event in canonical JSON, and after a tab, where it enters a record, the record in
 * gzip and base64. JSON has no bare tab or line end, so nothing needs escaping. Any thread; a reader belongs to one.
 */
public final class ParcelLines {

    /** Longest line read, in bytes: a record that packs worse than 1 in 2 is larger than any the bench writes. */
    public static final int LONGEST = 12 << 20;

    private ParcelLines() {}

    /** One line in UTF-8, with its line feed. */
    public static byte[] line(Parcel parcel) {
        byte[] event = EventJson.bytes(parcel.event());
        byte[] gzip = parcel.gzip();
        byte[] body = gzip == null ? new byte[0] : Base64.getEncoder().encode(gzip);
        int tab = gzip == null ? 0 : 1;
        byte[] line = new byte[event.length + tab + body.length + 1];
        System.arraycopy(event, 0, line, 0, event.length);
        if (tab == 1) {
            line[event.length] = '\t';
        }
        System.arraycopy(body, 0, line, event.length + tab, body.length);
        line[line.length - 1] = '\n';
        return line;
    }

    /**
     * Reads the parcel of one line, without its line feed.
     *
     * @throws Problem of kind REFUSED if it is none; the signature is not looked at, see {@link Intake}
     */
    public static Parcel read(byte[] line) {
        byte[] event = event(line);
        int tab = event.length;
        byte[] gzip = null;
        if (tab < line.length) {
            try {
                gzip = Base64.getDecoder().decode(java.util.Arrays.copyOfRange(line, tab + 1, line.length));
            } catch (IllegalArgumentException e) {
                throw refused("the record in it is no base64", e);
            }
        }
        return new Parcel(EventJson.read(event), gzip);
    }

    /**
     * What an event that cannot be read is called: by its name, where it has an id to make one of, else by its place.
     *
     * @param place such as "event 3 of the file"
     */
    public static String called(byte[] line, String place) {
        return EventName.of(event(line)).orElse(place);
    }

    private static byte[] event(byte[] line) {
        int tab = 0;
        while (tab < line.length && line[tab] != '\t') {
            tab++;
        }
        return java.util.Arrays.copyOf(line, tab);
    }

    /**
     * The next line of a stream without its line feed, null at the end.
     *
     * @throws Problem of kind REFUSED if it is longer than {@link #LONGEST}
     */
    public static byte @Nullable [] next(InputStream in) throws IOException {
        java.io.ByteArrayOutputStream line = new java.io.ByteArrayOutputStream(4096);
        for (int c = in.read(); c >= 0; c = in.read()) {
            if (c == '\n') {
                return line.toByteArray();
            }
            if (line.size() >= LONGEST) {
                throw refused("it has a line longer than " + LONGEST + " bytes", null);
            }
            line.write(c);
        }
        return line.size() == 0 ? null : line.toByteArray();
    }

    static Problem refused(String why, @Nullable Throwable cause) {
        return Kind.REFUSED.problem("the exchange cannot be read", why, "export it again where it came from", cause);
    }

    static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
