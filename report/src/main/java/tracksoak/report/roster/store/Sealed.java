package tracksoak.report.roster.store;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.standing.KnownEvent;

/**
 * What was found out about an event, with a check sum (CRC-32C, RFC 3720), so that a change from outside shows. Whoever may write to the database
 * can make the sum fit as well; this is against slips and hands, signatures are against people. Stateless.
 */
final class Sealed {

    private static final int DIGITS = 8;

    private Sealed() {}

    /** For the store; null where there is nothing but the event. */
    static @Nullable String text(KnownEvent known) {
        if (known.digest() == null) {
            return null;
        }
        String json = DerivedJson.write(known.digest());
        return sum(known.ref(), known.recordHolds(), json) + json;
    }

    /** As it was stored; none where it was changed since. */
    static Optional<KnownEvent> open(String ref, RosterEvent event, @Nullable String text, boolean holds) {
        if (text == null) {
            return event.record() == null && !holds
                    ? Optional.of(new KnownEvent(ref, event, null, false))
                    : Optional.empty();
        }
        if (text.length() < DIGITS) {
            return Optional.empty();
        }
        String json = text.substring(DIGITS);
        return text.startsWith(sum(ref, holds, json))
                ? Optional.of(new KnownEvent(ref, event, DerivedJson.digest(json), holds))
                : Optional.empty();
    }

    private static String sum(String ref, boolean holds, String json) {
        return String.format(java.util.Locale.ROOT, "%08x", crc(utf8(ref), utf8(holds ? "1" : "0"), utf8(json)));
    }

    /** What a row of what follows from events adds to the sum over all: its CRC-32C and, in the lower half, CRC-32 (RFC 1952). */
    static long row(String row) {
        byte[] all = utf8(row);
        CRC32 second = new CRC32();
        second.update(all, 0, all.length);
        return (crc(all) << 32) + second.getValue();
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static long crc(byte[]... parts) {
        CRC32C crc = new CRC32C();
        for (byte[] part : parts) {
            crc.update(part, 0, part.length);
            crc.update(0);
        }
        return crc.getValue();
    }
}
