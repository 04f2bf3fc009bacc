package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FileLimitTest {

    /** Microsoft's size-constraints table: 4,294,967,295 B. */
    @Test
    void putsTheFat32BoundaryAtFourGibibytesLessOne() {
        assertThat(FileLimit.FAT32.allows(4_294_967_295L)).isTrue();
        assertThat(FileLimit.FAT32.allows(4_294_967_296L)).isFalse();
    }

    /** The size field of RIFF counts what follows its own 8 bytes: a legal file may be 2^32 + 7 B, 8 more than FAT32 takes. */
    @Test
    void putsTheRiffBoundaryEightBytesAboveFat32() {
        assertThat(FileLimit.RIFF.maxFileBytes()).isEqualTo((1L << 32) + 7);
        assertThat(FileLimit.RIFF.maxFileBytes() - FileLimit.FAT32.maxFileBytes())
                .isEqualTo(8);
        assertThat(FileLimit.RIFF.allows((1L << 32) + 7)).isTrue();
        assertThat(FileLimit.RIFF.allows((1L << 32) + 8)).isFalse();
    }

    /** One more frame, with its pad byte if the count is odd, must break the limit; the count itself must not. */
    @ParameterizedTest
    @CsvSource({"1", "2", "3", "4", "6", "9", "12", "24", "48", "93", "96", "192", "384", "4096"})
    void fillsEachLimitToTheLastWholeFrame(int frame) {
        for (FileLimit limit : new FileLimit[] {
            FileLimit.FAT32,
            // an older SDK page of Microsoft's gives 4 GB − 2 B for FAT32: a careful recorder stops there
            new FileLimit(4_294_967_294L),
            FileLimit.RIFF,
            // some systems stop as if the field were signed: AES31-2 BWF-E amendment 2008
            new FileLimit((1L << 31) + 7),
            new FileLimit(1_000_001),
            new FileLimit(50)
        }) {
            long data = limit.maxDataBytes(frame);
            assertThat(data % frame).isZero();
            assertThat(data == 0 || limit.allows(FileLimit.fileBytes(data))).isTrue();
            assertThat(limit.allows(FileLimit.fileBytes(data + frame)) && limit.allows(FileLimit.fileBytes(data)))
                    .as("%s, frame of %d B", limit, frame)
                    .isFalse();
        }
    }

    @Test
    void padsAnOddDataChunk() {
        assertThat(FileLimit.fileBytes(0)).isEqualTo(44);
        assertThat(FileLimit.fileBytes(3)).isEqualTo(48);
        assertThat(FileLimit.fileBytes(4)).isEqualTo(48);
    }

    @Test
    void refusesALimitWithoutRoomForSamples() {
        assertThatThrownBy(() -> new FileLimit(44)).hasMessageContaining("44 B holds no samples");
        assertThatThrownBy(() -> Splits.of(24, 24, new FileLimit(50))).hasMessageContaining("holds no frame of 24 B");
    }
}
