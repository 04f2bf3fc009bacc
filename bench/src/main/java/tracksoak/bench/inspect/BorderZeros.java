package tracksoak.bench.inspect;

import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * Zeros, or bytes of erased memory, of one track or of all that share its file, from the beginning of the file or to its end.
 *
 * @param kind {@code ZEROS} or {@code ERASED}
 * @param channel which track of the file; −1 for all
 * @param from first sample of them, from the beginning of the file or track
 * @param until the sample after them
 * @param toTheEnd whether they last until the file ends; else they begin where it begins
 * @param cut whether the audio beside them neither fades away nor begins from nothing
 * @param torn whether it is besides cut off at the edge of a block, as where the rest was never written
 */
record BorderZeros(FindingKind kind, int channel, long from, long until, boolean toTheEnd, boolean cut, boolean torn) {

    /** The same where so many samples lie before the file. */
    BorderZeros behind(long samples) {
        return new BorderZeros(kind, channel, from + samples, until + samples, toTheEnd, cut, torn);
    }

    /** The same that are not torn, if they are what a gate or a mute makes. */
    BorderZeros whole() {
        return kind == FindingKind.ERASED ? this : new BorderZeros(kind, channel, from, until, toTheEnd, cut, false);
    }

    boolean isOf(int track) {
        return channel < 0 || channel == track;
    }
}
