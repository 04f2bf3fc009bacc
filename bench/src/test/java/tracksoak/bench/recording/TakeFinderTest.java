package tracksoak.bench.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which files are which tracks of which take. */
class TakeFinderTest {

    private final List<RecordedFile> files = new ArrayList<>();

    private void file(String path, int channels, long samples, @Nullable Long reference) {
        WaveFormat format = new WaveFormat(channels, 48_000, false, 3, 24);
        long bytes = samples * format.frameBytes();
        WaveHeader header = new WaveHeader(
                WaveHeader.Container.RIFF,
                format,
                44,
                bytes,
                bytes,
                44 + bytes,
                WaveHeader.Finish.DONE,
                0,
                44 + bytes,
                reference);
        files.add(new RecordedFile(path, header, () -> {
            throw new IOException("nothing there");
        }));
    }

    /** {@code take: track=files, …} a line. */
    private String found() {
        return TakeFinder.takes(files, (before, after) -> false).stream()
                .map(take -> take.name() + ": "
                        + take.tracks().stream()
                                .map(track -> track.name() + "=" + track.files().size())
                                .collect(Collectors.joining(", "))
                        + (take.certain() ? "" : " ?")
                        + (take.mayGoOn() ? " may go on" : "")
                        + (take.firstNumber() > 0 ? " from " + take.firstNumber() : ""))
                .collect(Collectors.joining("\n"));
    }

    @Test
    void oneNumberCountsTracks() {
        for (int i = 1; i <= 4; i++) {
            file("show/TRACK" + i + ".WAV", 1, i == 3 ? 479_999 : 480_000, null);
        }
        assertThat(found()).isEqualTo("show: TRACK1=1, TRACK2=1, TRACK3=1, TRACK4=1");
    }

    @Test
    void foldersAndFilesComeInTheOrderOfTheirNumbers() {
        for (int take : new int[] {1, 2, 10}) {
            for (int track : new int[] {1, 9, 10}) {
                file("s/take_" + take + "/ch" + track + ".wav", 1, 480_000 + take, null);
            }
        }
        assertThat(found()).isEqualTo("""
                s/take_1: ch1=1, ch9=1, ch10=1
                s/take_2: ch1=1, ch9=1, ch10=1
                s/take_10: ch1=1, ch9=1, ch10=1""");
    }

    @ParameterizedTest
    @CsvSource({
        "a2,a10",
        "a02,a10",
        "a01,a1",
        "a,a1",
        "a1,ab",
        "a9/b,a10/a",
        "99999999999999999999,100000000000000000000"
    })
    void numbersAreHeldAgainstEachOtherAsNumbers(String lower, String higher) {
        assertThat(NaturalOrder.PATHS.compare(lower, higher)).isNegative();
        assertThat(NaturalOrder.PATHS.compare(higher, lower)).isPositive();
        assertThat(NaturalOrder.PATHS.compare(lower, lower)).isZero();
    }

    @Test
    void wordsAreTracksToo() {
        file("Kick.wav", 1, 480_000, null);
        file("Snare.wav", 1, 480_000, null);
        file("Vox 1.wav", 1, 480_000, null);
        file("Vox 2.wav", 1, 480_000, null);
        assertThat(found()).isEqualTo("recording: Kick=1, Snare=1, Vox 1=1, Vox 2=1");
    }

    @Test
    void ofTwoNumbersTheOneWhoseFilesAreAlikeCountsSplits() {
        for (int track = 1; track <= 3; track++) {
            for (int split = 1; split <= 3; split++) {
                file("s/CH" + track + "-" + split + ".wav", 1, split == 3 ? 100_000 : 480_000, null);
            }
        }
        assertThat(found()).isEqualTo("s: CH1=3, CH2=3, CH3=3");
    }

    @Test
    void theSplitMayComeFirst() {
        for (int split = 1; split <= 2; split++) {
            for (int track = 1; track <= 3; track++) {
                file("s/" + split + "_TRACK" + track + ".wav", 1, split == 2 ? 100_000 : 480_000, null);
            }
        }
        assertThat(found()).isEqualTo("s: TRACK1=2, TRACK2=2, TRACK3=2");
    }

    @Test
    void aNumberThatCountsLongerAndLongerFilesCountsTakes() {
        for (int take = 1; take <= 3; take++) {
            for (String name : List.of("Kick", "Vox")) {
                file("s/" + name + "_" + take + ".wav", 1, 100_000L * take, null);
            }
        }
        assertThat(found())
                .isEqualTo("s (Kick_1): Kick=1, Vox=1\ns (Kick_2): Kick=1, Vox=1\ns (Kick_3): Kick=1, Vox=1");
    }

    @Test
    void filesOfManyTracksInARowAreSplits() {
        file("s/REC001.wav", 32, 480_000, null);
        file("s/REC002.wav", 32, 480_000, null);
        file("s/REC003.wav", 32, 10_000, null);
        assertThat(found()).isEqualTo("s: REC=3");
    }

    @Test
    void theFirstFileOfASeriesMayHaveNoNumberAndALetterIsOne() {
        for (int track = 1; track <= 3; track++) {
            file("bare/Vox " + track + ".wav", 1, 480_000, null);
            file("bare/Vox " + track + "-2.wav", 1, 480_000, null);
            file("bare/Vox " + track + "-3.wav", 1, 1000, null);
            file("brackets/Vox" + track + ".wav", 1, 480_000, null);
            file("brackets/Vox" + track + " (2).wav", 1, 1000, null);
            file("letters/TRK0" + track + "A.wav", 1, 480_000, null);
            file("letters/TRK0" + track + "B.wav", 1, 1000, null);
        }
        assertThat(found()).isEqualTo("""
                        bare: Vox 1=3, Vox 2=3, Vox 3=3
                        brackets: Vox1=2, Vox2=2, Vox3=2
                        letters: TRK01=2, TRK02=2, TRK03=2""");
    }

    /** A chunk is missing from both right ones. */
    @Test
    void leftAndRightAreTracks() {
        for (String name : List.of("Keys", "Overhead")) {
            file("s/" + name + "_L.wav", 1, 480_000, null);
            file("s/" + name + "_R.wav", 1, 470_000, null);
        }
        file("s/Kick.wav", 1, 480_000, null);
        assertThat(found()).isEqualTo("s: Keys_L=1, Keys_R=1, Kick=1, Overhead_L=1, Overhead_R=1");
    }

    /** Each of more than an hour; the last has lost a chunk. */
    @Test
    void tracksAsLargeAsSplitsAreTracks() {
        for (int track = 1; track <= 8; track++) {
            file("s/TR" + track + ".wav", 1, track == 8 ? 199_978_155 : 200_000_000, null);
        }
        assertThat(found()).startsWith("s: TR1=1, TR2=1, TR3=1");
        files.clear();
        for (int split = 1; split <= 3; split++) {
            file("s/REC" + split + ".wav", 1, split == 3 ? 99_000_000 : 200_000_000, null);
        }
        assertThat(found()).isEqualTo("s: REC=3");
    }

    @Test
    void foldersOfOneTrackEachAreOneTakeWhereLengthsOrTimesSaySo() {
        for (int track = 1; track <= 3; track++) {
            file("alike/TR" + track + "/0001.wav", 1, track == 2 ? 479_999 : 480_000, null);
            file("timed/TR" + track + "/0001.wav", 1, 480_000 - 1000 * track, 1_000_000L);
            file("songs/" + track + "/mix.wav", 2, 4_000_000 + 1000 * track, null);
            file("parts/" + track + "/mix.wav", 1, 480_000, 480_000L * track);
            file("rows/" + track + "/all.wav", 32, 480_000, null);
        }
        assertThat(found())
                .contains("alike: TR1=1, TR2=1, TR3=1", "timed: TR1=1, TR2=1, TR3=1")
                .contains("songs/1: mix=1", "parts/2: mix=1", "rows/3: all=1");
    }

    @Test
    void timesTellSplitsFromTracksAndTakes() {
        for (int i = 0; i < 3; i++) {
            file("split/A" + i + ".wav", 1, 480_000, 1_000_000L + 480_000L * i);
            file("track/A" + i + ".wav", 1, 480_000, 1_000_000L);
            file("takes/A" + i + ".wav", 1, 480_000, 1_000_000L + 48_000_000L * i);
        }
        assertThat(found()).startsWith("split: A=3\n").endsWith("track: A0=1, A1=1, A2=1");
        assertThat(TakeFinder.takes(files, (before, after) -> false)).hasSize(5);
    }

    @Test
    void filesOfQuiteUnlikeLengthsBelongTogetherForNobodyKnows() {
        file("songs/Opening.wav", 2, 4_800_000, null);
        file("songs/Finale.wav", 2, 9_000_000, null);
        assertThat(found()).isEqualTo("songs/Finale: Finale=1 ?\nsongs/Opening: Opening=1 ?");
    }

    /** Each is as long in itself; whether both recorded one show nobody knows. */
    @Test
    void twoRecordersInOneFolderAreTwoTakes() {
        for (int i = 1; i <= 3; i++) {
            file("show/REC_000" + i + ".wav", 1, 480_000, null);
            file("show/TRACK" + i + ".wav", 1, 720_000, null);
        }
        assertThat(found())
                .isEqualTo("show (REC_0001): REC_0001=1, REC_0002=1, REC_0003=1 ?\n"
                        + "show (TRACK1): TRACK1=1, TRACK2=1, TRACK3=1 ?");
    }

    @Test
    void aShortTrackOfASeriesIsStillHeldAgainstAllOthers() {
        for (int i = 1; i <= 3; i++) {
            file("show/Drum " + i + ".wav", 1, 480_000, null);
            file("show/Vox " + i + ".wav", 1, i == 2 ? 240_000 : 480_000, null);
        }
        assertThat(found()).isEqualTo("show: Drum 1=1, Drum 2=1, Drum 3=1, Vox 1=1, Vox 2=1, Vox 3=1");
    }

    @Test
    void noFileIsLost() {
        for (int i = 0; i < 200; i++) {
            file(
                    "mess/" + (char) ('a' + i % 7) + i % 13 + "-" + i % 11 + "_" + i + ".wav",
                    1 + i % 3,
                    1000 + i % 5,
                    null);
        }
        long found = TakeFinder.takes(files, (before, after) -> false).stream()
                .flatMap(take -> take.tracks().stream())
                .mapToLong(track -> track.files().size())
                .sum();
        assertThat(found).isEqualTo(200);
    }

    private void splits(String folder, int first, long... lengths) {
        for (int track = 1; track <= 3; track++) {
            for (int i = 0; i < lengths.length; i++) {
                file(folder + "/T" + track + "_" + (first + i) + ".wav", 1, lengths[i], null);
            }
        }
    }

    @Test
    void aSplitThatIsALittleLongerOrShorterIsNoCertainEndOfATake() {
        splits("longer", 1, 480_000, 480_000, 484_096, 480_000);
        splits("shorter", 1, 480_000, 480_000, 470_904, 480_000);
        splits("takes", 1, 480_000, 480_000, 100_000, 480_000, 90_000);
        assertThat(found()).isEqualTo("""
                        longer (T1_1): T1=2, T2=2, T3=2 may go on
                        longer (T1_3): T1=2, T2=2, T3=2
                        shorter (T1_1): T1=3, T2=3, T3=3 may go on
                        shorter (T1_4): T1=1, T2=1, T3=1
                        takes (T1_1): T1=3, T2=3, T3=3
                        takes (T1_4): T1=2, T2=2, T3=2""");
    }

    @Test
    void aSeriesThatBeginsWithTheSecondFileLacksOneBeforeButOneThatCountsOnMayNot() {
        splits("a", 0, 480_000, 480_000, 90_000);
        splits("b", 1, 480_000, 480_000, 90_000);
        splits("c", 2, 480_000, 480_000, 90_000);
        splits("d", 3, 480_000, 480_000, 90_000);
        splits("e", 12, 480_000, 480_000, 90_000);
        splits("f", 2, 100_000, 200_000);
        assertThat(found()).isEqualTo("""
                        a: T1=3, T2=3, T3=3
                        b: T1=3, T2=3, T3=3
                        c: T1=3, T2=3, T3=3 from 2
                        d: T1=3, T2=3, T3=3 from 3
                        e: T1=3, T2=3, T3=3
                        f (T1_2): T1=1, T2=1, T3=1
                        f (T1_3): T1=1, T2=1, T3=1""");
    }
}
