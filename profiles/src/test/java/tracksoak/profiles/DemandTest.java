package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DemandTest {

    /** Rate × bytes per sample; rates from AES5. The 48 kHz/24-bit row is the trade's "8 to 9 MB per minute per track". */
    @ParameterizedTest
    @CsvSource({
        "44100, PCM_16, 88200, 5292000",
        "44100, PCM_24, 132300, 7938000",
        "48000, PCM_16, 96000, 5760000",
        "48000, PCM_24, 144000, 8640000",
        "48000, PCM_32, 192000, 11520000",
        "48000, FLOAT_32, 192000, 11520000",
        "96000, PCM_24, 288000, 17280000",
        "96000, PCM_32, 384000, 23040000"
    })
    void countsBytesPerTrack(int rate, SampleFormat format, long perSecond, long perMinute) {
        GroupDemand track = demand(session(FileLayout.FILE_PER_TRACK, 3600, new TrackGroup(1, rate, format)));
        assertThat(track.bytesPerSecondPerTrack()).isEqualTo(perSecond);
        assertThat(track.bytesPerMinutePerTrack()).isEqualTo(perMinute);
    }

    @Test
    void agreesWithTheTradesRuleOfThumb() {
        // 8 to 9 MB per minute per track at 48 kHz/24-bit: common practice, no source.
        assertThat(demand(interleaved(1)).bytesPerMinutePerTrack()).isBetween(8_000_000L, 9_000_000L);
    }

    /** Interleaved 48 kHz/24-bit by number of tracks: arithmetic. */
    @ParameterizedTest
    @CsvSource({"8, 4.1472", "16, 8.2944", "32, 16.5888", "64, 33.1776", "128, 66.3552"})
    void countsGigabytesPerHour(int tracks, double gigabytes) {
        Demand demand = Demand.of(interleaved(tracks));
        assertThat(demand.bytesPerHour()).isEqualTo(Math.round(gigabytes * 1e9));
        assertThat(demand.dataBytes()).isEqualTo(Math.round(gigabytes * 1e9));
        assertThat(demand.bytesPerSecond()).isEqualTo(tracks * 144_000L);
        assertThat(demand.bytesPerMinute()).isEqualTo(tracks * 8_640_000L);
    }

    /** Largest data chunk behind a 44-byte head and the time until it is full: arithmetic. */
    @ParameterizedTest
    @CsvSource({
        "8, 4294967256, 4294967232, 3728.27",
        "16, 4294967232, 4294967232, 1864.14",
        "32, 4294967232, 4294967232, 932.07",
        "64, 4294967232, 4294967232, 466.03",
        "128, 4294967040, 4294967040, 233.02"
    })
    void fillsOneFileUpToTheLimitInWholeFrames(int tracks, long riff, long fat32, double seconds) {
        Demand demand = Demand.of(interleaved(tracks));
        Splits splits = demand.groups().get(0).splits(FileLimit.RIFF, 3600);
        assertThat(splits.dataPerFileBytes()).isEqualTo(riff);
        assertThat(demand.groups().get(0).splits(FileLimit.FAT32, 3600).dataPerFileBytes())
                .isEqualTo(fat32);
        assertThat((double) splits.dataPerFileBytes() / demand.bytesPerSecond()).isCloseTo(seconds, within(0.005));
    }

    @Test
    void keepsReadAndWrittenBytesApart() {
        SessionCatalog shipped = SessionCatalog.shipped();
        Demand recording = Demand.of(shipped.find("band-32"));
        assertThat(recording.writtenBytesPerSecond()).isEqualTo(4_608_000);
        assertThat(recording.readBytesPerSecond()).isZero();
        Demand playback = Demand.of(shipped.find("playback-16"));
        assertThat(playback.writtenBytesPerSecond()).isZero();
        assertThat(playback.readBytesPerSecond()).isEqualTo(2_304_000);
        Demand mixdown = Demand.of(shipped.find("mixdown-32"));
        assertThat(mixdown.writtenBytesPerSecond()).isEqualTo(288_000);
        assertThat(mixdown.readBytesPerSecond()).isEqualTo(4_608_000);
        assertThat(mixdown.bytesPerSecond()).isEqualTo(4_896_000);
        assertThat(Demand.of(shipped.find("archive-32")).readBytesPerSecond()).isZero();
    }

    @Test
    void addsUpGroupsOfDifferentRates() {
        Demand demand = Demand.of(SessionCatalog.shipped().find("two-rates"));
        assertThat(demand.bytesPerSecond()).isEqualTo(32 * 144_000 + 2 * 288_000);
        assertThat(demand.openFiles()).isEqualTo(34);
        // 3 h at 288,000 B/s is 3.11 GB: no track reaches a limit of 4 GiB.
        assertThat(demand.roomOn(FileSystemShape.exfat(131_072)).files()).isEqualTo(34);
        assertThat(demand.dataBytes()).isEqualTo(5_184_000L * 10_800);
    }

    private static Session interleaved(int tracks) {
        return session(FileLayout.INTERLEAVED, 3600, new TrackGroup(tracks, 48_000, SampleFormat.PCM_24));
    }

    private static Session session(FileLayout layout, long lengthS, TrackGroup group) {
        return Sessions.of(layout, lengthS, FileLimit.FAT32.maxFileBytes(), List.of(group));
    }

    private static GroupDemand demand(Session session) {
        return Demand.of(session).groups().get(0);
    }

    /** The file that is open at the end is given 64 MiB more than it comes to; of a shorter file limit no more than that. */
    @Test
    void roomInAdvanceIsRoomThatMustBeFree() {
        Session session = interleaved(8);
        long without = Demand.of(session).roomOn(FileSystemShape.exfat(131_072)).totalBytes();
        Session ahead = session.but().spaceInAdvanceBytes(64L << 20).build();
        assertThat(Demand.of(ahead).roomOn(FileSystemShape.exfat(131_072)).totalBytes() - without)
                .isEqualTo(64L << 20);
        Session cut = ahead.but().fileLimitBytes(16L << 20).build();
        assertThat(Demand.of(cut).roomOn(FileSystemShape.exfat(131_072)).aheadBytes())
                .isEqualTo(16L << 20);
    }
}
