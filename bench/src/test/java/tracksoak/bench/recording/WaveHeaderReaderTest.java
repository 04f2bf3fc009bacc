package tracksoak.bench.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.rig.Host;
import tracksoak.bench.rig.NeedsCommand;

class WaveHeaderReaderTest {

    private static final WaveFormat MONO_24 = new WaveFormat(1, 48_000, false, 3, 24);

    @TempDir
    Path folder;

    private static WaveHeader read(Path file) throws IOException, UnreadableWave {
        try (FileBytes bytes = DiskFile.open(file)) {
            return WaveHeaderReader.read(bytes);
        }
    }

    private Path file(byte[] head, int dataBytes) throws IOException {
        byte[] all = Arrays.copyOf(head, head.length + dataBytes);
        Arrays.fill(all, head.length, all.length, (byte) 0x5A);
        return Files.write(folder.resolve("take.wav"), all);
    }

    private static byte[] with(byte[] head, int at, int value) {
        ByteBuffer.wrap(head).order(ByteOrder.LITTLE_ENDIAN).putInt(at, value);
        return head;
    }

    /** Written by sox, which writes the extensible form above 16 bits or two tracks, and read by it as well. */
    @NeedsCommand("sox")
    @ParameterizedTest
    @CsvSource({
        "48000,1,16,signed-integer",
        "44100,2,24,signed-integer",
        "96000,6,24,signed-integer",
        "192000,1,32,signed-integer",
        "48000,3,32,floating-point",
        "48000,1,8,unsigned-integer",
        "88200,2,64,floating-point"
    })
    void whatSoxWritesIsUnderstoodAndItsSamplesAreTheSame(int rate, int tracks, int bits, String encoding)
            throws IOException, UnreadableWave {
        Path wave = folder.resolve("by-sox.wav");
        Path raw = folder.resolve("by-sox.raw");
        Host.run(
                "sox",
                "-D",
                "-R",
                "-n",
                "-r",
                "" + rate,
                "-c",
                "" + tracks,
                "-b",
                "" + bits,
                "-e",
                encoding,
                wave.toString(),
                "synth",
                "0.5",
                "sine",
                "440",
                "sine",
                "777",
                "gain",
                "-3");
        Host.run("sox", wave.toString(), "-t", "raw", "-e", "floating-point", "-b", "32", "-L", raw.toString());

        WaveHeader header = read(wave);

        assertThat(header.finish()).isEqualTo(WaveHeader.Finish.DONE);
        assertThat(header.format()).isEqualTo(new WaveFormat(tracks, rate, encoding.startsWith("f"), bits / 8, bits));
        assertThat(header.samples()).isEqualTo(rate / 2);
        ByteBuffer expected = ByteBuffer.wrap(Files.readAllBytes(raw)).order(ByteOrder.LITTLE_ENDIAN);
        ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(wave)).order(ByteOrder.LITTLE_ENDIAN);
        bytes.position((int) header.dataAt());
        float[] samples = new float[rate / 2];
        for (int track = 0; track < tracks; track++) {
            Samples.of(bytes.slice().order(ByteOrder.LITTLE_ENDIAN), samples.length, header.format(), track, samples);
            double furthest = 0;
            for (int i = 0; i < samples.length; i++) {
                furthest = Math.max(furthest, Math.abs(samples[i] - expected.getFloat(4 * (i * tracks + track))));
            }
            // sox itself works with 32 bits and rounds them to the 24 of a float
            assertThat(furthest).isLessThanOrEqualTo(bits > 24 ? 1.2e-7 : 0);
        }
    }

    /** RF64 as libsndfile writes it. */
    @NeedsCommand({"sox", "sndfile-convert"})
    @Test
    void anRf64OfLibsndfileIsUnderstood() throws IOException, UnreadableWave {
        Path wave = folder.resolve("plain.wav");
        Path large = folder.resolve("large.rf64");
        Host.run("sox", "-n", "-r", "48000", "-c", "2", "-b", "24", wave.toString(), "synth", "0.5", "sine", "440");
        Host.run("sndfile-convert", wave.toString(), large.toString());

        WaveHeader header = read(large);

        assertThat(header.container()).isEqualTo(WaveHeader.Container.RF64);
        assertThat(header.finish()).isEqualTo(WaveHeader.Finish.DONE);
        assertThat(header.samples()).isEqualTo(24_000);
        assertThat(header.format()).isEqualTo(new WaveFormat(2, 48_000, false, 3, 24));
    }

    /** Read by libsndfile. */
    @NeedsCommand("sndfile-info")
    @ParameterizedTest
    @CsvSource({"48000,false,3", "192000,true,4", "44100,false,2", "96000,false,4"})
    void whatIsWrittenHereIsUnderstoodByLibsndfile(int rate, boolean isFloat, int bytes) throws IOException {
        WaveFormat format = new WaveFormat(1, rate, isFloat, bytes, 8 * bytes);
        Path wave = file(WaveHead.of(format, 1000L * bytes), 1000 * bytes);

        String told = Host.run("sndfile-info", wave.toString());

        assertThat(told).containsPattern("Sample Rate *: " + rate).containsPattern("Frames *: 1000");
        assertThat(told).containsPattern("Channels *: 1").doesNotContain("*** ", "should be");
    }

    /** Read by libsndfile. The file is sparse, so it takes no room. */
    @NeedsCommand("sndfile-info")
    @Test
    void whatIsTooLongForRiffIsWrittenAsRf64() throws IOException, UnreadableWave {
        WaveFormat format = new WaveFormat(1, 192_000, true, 4, 32);
        long data = 4L * 192_000 * 3600 * 2;
        Path wave = Files.write(folder.resolve("long.wav"), WaveHead.of(format, data));
        try (RandomAccessFile sparse = new RandomAccessFile(wave.toFile(), "rw")) {
            sparse.setLength(92 + data);
        }

        assertThat(read(wave).samples()).isEqualTo(192_000L * 7200);
        assertThat(read(wave).container()).isEqualTo(WaveHeader.Container.RF64);
        assertThat(Host.run("sndfile-info", wave.toString())).containsPattern("Frames *: 1382400000");
    }

    @Test
    void aHeaderThatWasNeverFinishedHasAllThatIsThere() throws IOException, UnreadableWave {
        // 2 GiB and 4 GiB, or a little less, stand for a size that is not known yet
        for (int size : new int[] {0, -1, -45, 0x7FFF_F000, 0x7FFF_EFFF, 0x7FFF_FFFF, 0x8000_0000}) {
            WaveHeader header = read(file(with(WaveHead.of(MONO_24, 30_000), 40, size), 30_000));

            assertThat(header.finish()).isEqualTo(WaveHeader.Finish.NEVER);
            assertThat(header.samples()).isEqualTo(10_000);
        }
        assertThat(read(file(with(WaveHead.of(MONO_24, 30_000), 4, 0), 30_000)).outerBytes())
                .isEqualTo(-1);
    }

    /** Sox cannot go back in a pipe, and leaves the size it began with. */
    @NeedsCommand("sox")
    @Test
    void whatSoxWritesIntoAPipeWasNeverFinished() throws IOException, UnreadableWave {
        Path wave = folder.resolve("piped.wav");
        Host.run("sh", "-c", "sox -n -r 48000 -b 24 -t wav - synth 0.5 sine 440 2>/dev/null | cat > '" + wave + "'");

        assertThat(read(wave).finish()).isEqualTo(WaveHeader.Finish.NEVER);
        assertThat(read(wave).samples()).isEqualTo(24_000);
    }

    /** Bits in more bytes than they need: 20 in 3 by the standard, 24 in 4 by what some recorders write. */
    @ParameterizedTest
    @CsvSource({"20,3,true", "24,4,true", "20,4,true", "16,4,false", "24,2,false", "7,1,false"})
    void bitsMayHaveMoreBytesThanTheyNeed(int bits, int bytes, boolean known) throws IOException {
        byte[] head = WaveHead.of(new WaveFormat(1, 48_000, false, bytes, 8 * bytes), 12_000);
        ByteBuffer.wrap(head).order(ByteOrder.LITTLE_ENDIAN).putShort(34, (short) bits);
        Path wave = file(head, 12_000);
        try {
            assertThat(read(wave).format()).isEqualTo(new WaveFormat(1, 48_000, false, bytes, bits));
            assertThat(known).isTrue();
        } catch (UnreadableWave refused) {
            assertThat(known).as(refused.why()).isFalse();
        }
    }

    @Test
    void anEmptyTakeIsNoUnfinishedOne() throws IOException, UnreadableWave {
        WaveHeader header = read(file(WaveHead.of(MONO_24, 0), 0));

        assertThat(header.finish()).isEqualTo(WaveHeader.Finish.DONE);
        assertThat(header.samples()).isZero();
    }

    @Test
    void aFileThatEndsBeforeItsSamplesOrGoesOnBehindThemIsTold() throws IOException, UnreadableWave {
        WaveHeader cut = read(file(WaveHead.of(MONO_24, 30_000), 29_000));
        WaveHeader behind = read(file(WaveHead.of(MONO_24, 30_000), 33_000));

        assertThat(cut.finish()).isEqualTo(WaveHeader.Finish.CUT);
        assertThat(cut.samples()).isEqualTo(9_666);
        assertThat(cut.brokenBytes()).isEqualTo(2);
        assertThat(behind.finish()).isEqualTo(WaveHeader.Finish.BEHIND);
        assertThat(behind.behindBytes()).isEqualTo(3_000);
        assertThat(behind.samples()).isEqualTo(10_000);
    }

    private static byte[] chunk(String id, int size, int present) {
        return ByteBuffer.allocate(8 + present)
                .order(ByteOrder.LITTLE_ENDIAN)
                .put(id.getBytes(StandardCharsets.US_ASCII))
                .putInt(size)
                .array();
    }

    /** A file of these chunks, samples among them. */
    private WaveHeader of(byte[]... chunks) throws IOException, UnreadableWave {
        byte[] head = Arrays.copyOf(WaveHead.of(MONO_24, 0), 36);
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        all.write(head);
        for (byte[] one : chunks) {
            all.write(one);
        }
        return read(Files.write(folder.resolve("odd.wav"), all.toByteArray()));
    }

    @Test
    void aPaddingByteThatWasLeftOutIsNoDamage() throws IOException, UnreadableWave {
        byte[] samples = chunk("data", 2_997, 2_997);
        byte[] padded = chunk("data", 2_997, 2_998);
        for (byte[] note : List.of(chunk("LIST", 5, 5), chunk("LIST", 5, 6))) {
            WaveHeader before = of(note, padded);
            assertThat(before.samples()).isEqualTo(999);
            assertThat(before.finish()).isEqualTo(WaveHeader.Finish.DONE);
            for (byte[] odd : List.of(samples, padded)) {
                WaveHeader behind = of(odd, note, chunk("iXML", 4, 4));
                assertThat(behind.samples()).isEqualTo(999);
                assertThat(behind.finish()).isEqualTo(WaveHeader.Finish.DONE);
            }
        }
    }

    @Test
    void aNoteCutOffBehindTheSamplesIsNoAudioButOtherLettersMayBe() throws IOException, UnreadableWave {
        assertThat(of(chunk("data", 3_000, 3_000), chunk("LIST", 5_000, 1_000)).finish())
                .isEqualTo(WaveHeader.Finish.DONE);
        byte[] letters = chunk("Abcd", 0x4141_4141, 2_992);
        Arrays.fill(letters, 8, letters.length, (byte) 'A');
        assertThat(of(chunk("data", 3_000, 3_000), letters).finish()).isEqualTo(WaveHeader.Finish.BEHIND);
    }

    /** ID3v1, as programs for songs put it at the end of any file. */
    @Test
    void aTagAtTheEndOfTheFileIsNoAudio() throws IOException, UnreadableWave {
        byte[] tag = Arrays.copyOf("TAGSong".getBytes(StandardCharsets.US_ASCII), 128);
        Arrays.fill(tag, 7, 128, (byte) ' ');
        byte[] sounding = new byte[600];
        Arrays.fill(sounding, (byte) 200);

        assertThat(of(chunk("data", 3_000, 3_000), tag).finish()).isEqualTo(WaveHeader.Finish.DONE);
        assertThat(of(chunk("data", 2_997, 2_998), chunk("LIST", 4, 4), tag).behindBytes())
                .isZero();
        assertThat(of(chunk("data", 3_000, 3_000), new byte[600], tag).finish()).isEqualTo(WaveHeader.Finish.DONE);
        assertThat(of(chunk("data", 3_000, 3_000), sounding, tag)).satisfies(header -> {
            assertThat(header.finish()).isEqualTo(WaveHeader.Finish.BEHIND);
            assertThat(header.behindBytes()).isEqualTo(600);
        });
    }

    @Test
    void samplesBehindThoseOfTheHeaderAreToldEvenIfAHeaderOfTheirOwnBeginsThem() throws IOException, UnreadableWave {
        byte[] second = chunk("data", 3_000, 3_000);
        Arrays.fill(second, 8, second.length, (byte) 0x5A);
        WaveHeader header = of(chunk("data", 300, 300), second);
        assertThat(header.samples()).isEqualTo(100);
        assertThat(header.finish()).isEqualTo(WaveHeader.Finish.BEHIND);
    }

    @Test
    void theTimeReferenceIsFoundBeforeAndBehindTheSamples() throws IOException, UnreadableWave {
        byte[] bext = new byte[8 + 602];
        ByteBuffer chunk = ByteBuffer.wrap(bext).order(ByteOrder.LITTLE_ENDIAN);
        chunk.put(new byte[] {'b', 'e', 'x', 't'}).putInt(602);
        chunk.putLong(8 + 338, 3_600L * 48_000);
        byte[] head = WaveHead.of(MONO_24, 3_000);
        ByteBuffer all = ByteBuffer.allocate(head.length + bext.length + 3_000);
        all.put(head, 0, 36).put(bext).put(head, 36, 8).put(new byte[3_000]);
        Path before = Files.write(folder.resolve("before.wav"), all.array());
        all.clear();
        all.put(head).put(new byte[3_000]).put(bext);
        Path after = Files.write(folder.resolve("after.wav"), all.array());

        assertThat(read(before).timeReference()).isEqualTo(172_800_000);
        assertThat(read(after).timeReference()).isEqualTo(172_800_000);
        assertThat(read(after).finish()).isEqualTo(WaveHeader.Finish.DONE);
    }

    @Test
    void whateverBytesAFileHoldsItIsReadOrRefusedInASentence() throws IOException {
        Random random = new Random(20);
        byte[] sound = WaveHead.of(MONO_24, 3_000);
        for (int round = 0; round < 5_000; round++) {
            byte[] bytes = Arrays.copyOf(sound, random.nextInt(400));
            for (int change = random.nextInt(6); change > 0 && bytes.length > 0; change--) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt();
            }
            Path file = Files.write(folder.resolve("any.wav"), bytes);
            try {
                WaveHeader header = read(file);
                assertThat(header.presentBytes()).isBetween(0L, (long) bytes.length);
                assertThat(header.dataAt() + header.presentBytes()).isLessThanOrEqualTo(bytes.length);
            } catch (UnreadableWave refused) {
                assertThat(refused.why()).startsWith("it").hasSizeLessThan(120);
            }
        }
    }

    @Test
    void whatIsNoWaveSaysSo() throws IOException {
        Path empty = Files.write(folder.resolve("empty.wav"), new byte[0]);
        Path text = Files.writeString(folder.resolve("text.wav"), "not a recording at all");
        Path cut = Files.write(folder.resolve("cut.wav"), Arrays.copyOf(WaveHead.of(MONO_24, 9), 30));

        assertThatThrownBy(() -> read(empty)).isInstanceOf(UnreadableWave.class).hasMessage("it is empty");
        assertThatThrownBy(() -> read(text)).hasMessage("it does not begin as a WAVE file does");
        assertThatThrownBy(() -> read(cut)).hasMessageContaining("ends inside its header");
    }
}
