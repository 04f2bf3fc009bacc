package tracksoak.report.roster.standing;

import tracksoak.profiles.base.Units;

/**
 * What the full PASSes that cover a session and are not too old show together: a drive is trusted once it was seen for the session's
 * whole length at its pace, and as many bytes as the session writes came back as they were. Each run counts once.
 *
 * @param paceMs time at the session's pace, in ms
 * @param neededMs length of the session in ms
 * @param provenBytes bytes written and read back as they were
 * @param neededBytes bytes the session writes
 */
public record Evidence(long paceMs, long neededMs, long provenBytes, long neededBytes) {

    private static final long MINUTE = 60_000;

    boolean enough() {
        return paceMs >= neededMs && provenBytes >= neededBytes;
    }

    Evidence and(Mark mark) {
        return new Evidence(
                Math.addExact(paceMs, mark.paceMs()),
                neededMs,
                Math.addExact(provenBytes, mark.provenBytes()),
                neededBytes);
    }

    /** Time at the session's pace that is still wanting, in ms. */
    public long wantingMs() {
        return Math.max(0, neededMs - paceMs);
    }

    /** Bytes that are still wanting. */
    public long wantingBytes() {
        return Math.max(0, neededBytes - provenBytes);
    }

    /** {@code 15 of 180 min}: begun minutes do not count as seen. */
    public String minutes() {
        return Math.min(paceMs, neededMs) / MINUTE + " of " + up(neededMs) + " min";
    }

    /** {@code 165 min at its pace and 12.3 GB}, or one of both; empty where nothing is wanting. */
    public String wanting() {
        String time = wantingMs() == 0 ? "" : up(wantingMs()) + " min at its pace";
        String bytes = wantingBytes() == 0 ? "" : Units.bytes(wantingBytes());
        return time + (time.isEmpty() || bytes.isEmpty() ? "" : " and ") + bytes;
    }

    private static long up(long ms) {
        return (ms + MINUTE - 1) / MINUTE;
    }
}
