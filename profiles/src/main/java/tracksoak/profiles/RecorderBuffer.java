package tracksoak.profiles;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;

/**
 * Where a session has its buffer from: guessed, measured on a stand-in, or given. How it was measured stands as one sentence in the
 * session's note, so that it goes with every session, record and page. Stateless.
 */
public final class RecorderBuffer {

    private static final int HASH = 16;
    private static final double SAME_S = 0.0015;
    private static final String BEGIN = "The recorder's buffer was measured ";

    private static final Pattern SENTENCE = Pattern.compile(
            BEGIN + "(on \\d{4}-\\d\\d-\\d\\d with a stand-in: held (\\d{1,4}(?:\\.\\d{1,3})?) s of audio [^;]{1,100};"
                    + " [^;]{1,30} in all; trace SHA-256 [0-9a-f]{" + HASH + "})\\.");

    private RecorderBuffer() {}

    /**
     * The sentence for the note.
     *
     * @param startEpochMs when the trace began, in ms since 1970
     * @param bounds what was held and what was not: {@code held 1.8 s of audio 4 times, lost audio at 1.822 s}
     * @param stops how many were tried
     * @param traceSha256 in hexadecimal digits
     */
    public static String sentence(long startEpochMs, String bounds, int stops, String traceSha256) {
        return BEGIN + "on "
                + Instant.ofEpochMilli(startEpochMs).atOffset(ZoneOffset.UTC).toLocalDate() + " with a stand-in: "
                + bounds + "; " + Count.of(stops, "stop") + " in all; trace SHA-256 "
                + traceSha256.substring(0, HASH) + ".";
    }

    /**
     * How it was measured: {@code on 2026-11-28 with a stand-in: held 1.8 s of audio …}. Empty where it was not, or where the session says
     * another buffer than was held.
     */
    public static Optional<String> measured(Session session) {
        Matcher found = SENTENCE.matcher(session.about());
        return !session.bufferAssumed()
                        && found.find()
                        && Math.abs(Double.parseDouble(found.group(2)) - session.bufferS()) < SAME_S
                ? Optional.of(found.group(1))
                : Optional.empty();
    }

    /** In a table: {@code 2 s per track, a guess: nobody has measured it}. */
    public static String words(Session session) {
        return Units.seconds(session.bufferS()) + " per track"
                + (session.bufferAssumed()
                        ? ", a guess: nobody has measured it"
                        : measured(session).map(how -> ", measured " + how).orElse(""));
    }
}
