package tracksoak.bench.command.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.command.AtOneDrive;
import tracksoak.bench.command.Typed;
import tracksoak.bench.rig.Host;
import tracksoak.bench.rig.NeedsCommand;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.InspectionRecord;
import tracksoak.report.record.json.RecordFormats;

class InspectCommandTest extends AtOneDrive {

    private static final int HEAD = 44;

    /** A take of three tracks that carry the test signal. */
    private void recorded(String length) throws IOException {
        Typed made = type("signal DRIVE/TR01.wav --length " + length);
        assertThat(made.code()).as(made.err()).isZero();
        Files.copy(drive.resolve("TR01.wav"), drive.resolve("TR02.wav"));
        Files.copy(drive.resolve("TR01.wav"), drive.resolve("TR03.wav"));
    }

    private Map<String, String> everything() throws IOException {
        Map<String, String> all = new TreeMap<>();
        try (Stream<Path> paths = Files.walk(drive)) {
            for (Path path : paths.filter(Files::isRegularFile).toList()) {
                FileTime time = Files.getLastModifiedTime(path);
                all.put(path.toString(), time + " " + Digests.sha256Hex(Files.readAllBytes(path)));
            }
        }
        return all;
    }

    private InspectionRecord record() throws IOException {
        return RecordFormats.INSPECTION.read(Files.readAllBytes(out.resolve("inspection.json")));
    }

    @Test
    void aSoundRecordingPassesAndNothingOfItIsTouched() throws IOException {
        recorded("3s");
        Map<String, String> before = everything();

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isZero();
        assertThat(typed.out())
                .startsWith("PASS  Nothing is missing from 3 tracks of 3 s.")
                .contains("followed on every track", "to the sample", "TR03   48 kHz 24-bit  0:00:03.000  144,000");
        assertThat(record().outcome()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(Files.readString(out.resolve("inspection.html")))
                .startsWith("<!")
                .contains("PASS", "Recording sheet");
        assertThat(everything()).isEqualTo(before);
    }

    @Test
    void aSampleThatIsMissingOnOneTrackFailsAndTheSecondIsNamed() throws IOException {
        recorded("3s");
        byte[] whole = Files.readAllBytes(drive.resolve("TR02.wav"));
        byte[] rest = Arrays.copyOf(whole, whole.length);
        int at = HEAD + 3 * 60_000;
        System.arraycopy(whole, at + 3, rest, at, whole.length - at - 3);
        Files.write(drive.resolve("TR02.wav"), rest);

        Typed typed = type("inspect DRIVE --out OUT --json");

        assertThat(typed.code()).isEqualTo(1);
        assertThat(typed.out()).isEqualTo(Files.readString(out.resolve("inspection.json")));
        assertThat(record().sentence())
                .isEqualTo("TR02: 1 sample (0.02 ms) of the test signal is missing at 0:00:01.250.");
        assertThat(record().findings().get(0).kind()).isEqualTo(FindingKind.SIGNAL_MISSING);
    }

    @Test
    void filesOfOtherKindsBesideARecordingAreSaidNotToHaveBeenLookedInto() throws IOException {
        recorded("2s");
        assertThat(type("inspect DRIVE --out OUT").out()).doesNotContain("Not looked into");
        Files.writeString(drive.resolve("TR04.aiff"), "FORM");
        Files.writeString(drive.resolve("TR05.flac"), "fLaC");

        Typed typed = type("inspect DRIVE --out HOST/again");

        assertThat(typed.code()).isZero();
        assertThat(typed.out()).contains("Not looked into: 2 other files beside them");
    }

    @Test
    void aLinkToARecordingIsFollowed() throws IOException {
        recorded("2s");
        Files.createSymbolicLink(host.resolve("link"), drive);

        Typed typed = type("inspect HOST/link --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isZero();
        assertThat(typed.out()).startsWith("PASS  Nothing is missing from 3 tracks of 2 s.");
        assertThat(type("inspect HOST/link --out DRIVE/records").err()).contains("lies in the recording itself");
        assertThat(type("inspect DRIVE --out HOST/link/records").err()).contains("lies in the recording itself");
        assertThat(drive.resolve("records")).doesNotExist();
    }

    /** To a file, a folder, a file of another name, and to nothing. */
    @ParameterizedTest
    @CsvSource({"TR04.wav,more/TR04.wav", "more,more", "TR04.wav,more/raw", "TR04.wav,no"})
    void aLinkInARecordingIsNotFollowedButNamed(String link, String target) throws IOException {
        recorded("2s");
        Files.createDirectory(host.resolve("more"));
        Files.copy(drive.resolve("TR01.wav"), host.resolve("more/TR04.wav"));
        Files.copy(drive.resolve("TR01.wav"), host.resolve("more/raw"));
        Files.createSymbolicLink(drive.resolve(link), host.resolve(target));

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isEqualTo(4);
        assertThat(typed.out())
                .startsWith("NO VERDICT  Nothing is missing from 3 tracks of 2 s, but not all was looked into.")
                .contains("Not looked into: 1 named below", "listen: " + link + ": not looked into (a link: ");
    }

    @Test
    void aLinkHidesNothingThatLeadsToWhatIsLookedAtAnyway() throws IOException {
        recorded("2s");
        Files.writeString(host.resolve("notes.txt"), "none");
        Files.createSymbolicLink(drive.resolve("TR09.wav"), Path.of("TR01.wav"));
        Files.createSymbolicLink(drive.resolve("loop"), Path.of("."));
        Files.createSymbolicLink(drive.resolve("notes.txt"), host.resolve("notes.txt"));

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isZero();
        assertThat(typed.out())
                .startsWith("PASS  Nothing is missing from 3 tracks")
                .contains("Not looked into: 1 other file beside them, 2 named below")
                .containsPattern("note: (TR09.wav and loop|loop and TR09.wav): ");
    }

    @NeedsCommand("mkfifo")
    @Test
    void whatIsCalledLikeARecordingAndIsNoFileIsNamed() throws IOException {
        recorded("2s");
        Host.run("mkfifo", drive.resolve("x.wav").toString());

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isEqualTo(4);
        assertThat(typed.out())
                .contains("Not looked into: 1 named below", "x.wav: not looked into (neither a file nor");
    }

    private void isRefusedAs(String path, String kind) {
        Typed typed = type("inspect " + path + " --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isEqualTo(2);
        assertThat(typed.err()).contains("it is " + kind + ", neither a file nor a drive", "  → ");
    }

    /** Opening a pipe waits for somebody to write into it, and a link is followed. */
    @NeedsCommand("mkfifo")
    @Timeout(60)
    @Test
    void aPipeIsNamedAndRefused() throws IOException {
        Host.run("mkfifo", drive.resolve("x.wav").toString());
        Files.createSymbolicLink(drive.resolve("link"), drive.resolve("x.wav"));

        isRefusedAs("DRIVE/x.wav", "a pipe (FIFO)");
        isRefusedAs("DRIVE/link", "a pipe (FIFO)");
    }

    @NeedsCommand("mkfifo")
    @Test
    void aSocketAndADeviceThatIsNoDriveAreNamedAndRefused() throws IOException {
        Path socket = drive.resolve("s");
        try (ServerSocketChannel listening = ServerSocketChannel.open(StandardProtocolFamily.UNIX)) {
            listening.bind(UnixDomainSocketAddress.of(socket));

            isRefusedAs("DRIVE/s", "a socket");
            isRefusedAs("/dev/zero", "a device that gives characters");
        }
    }

    @Test
    void whatLiesTooDeepIsNamedAsSuch() throws IOException {
        recorded("2s");
        Files.createDirectories(drive.resolve("d/".repeat(40)));

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).as(typed.out() + typed.err()).isEqualTo(4);
        assertThat(typed.out()).contains("more than 32 deep: inspect this one by itself");
    }

    @Test
    void theSessionThatARecordingImpliesIsWrittenAndCanBeRead() throws IOException {
        recorded("3s");

        Typed typed = type("inspect DRIVE --out OUT --session-out HOST/learnt.toml");

        assertThat(typed.code()).as(typed.err()).isZero();
        Session session = SessionReader.read(host.resolve("learnt.toml"));
        assertThat(session.tracks()).isEqualTo(3);
        assertThat(session.groups().get(0).sampleRateHz()).isEqualTo(48_000);
        assertThat(session.lengthS()).isEqualTo(3);
        assertThat(session.bufferAssumed()).isTrue();
        assertThat(Files.readString(host.resolve("learnt.toml")))
                .contains("layout = \"file-per-track\"  # shown", "chunk = \"64 KiB\"  # a guess: cannot be told");
        assertThat(type("inspect DRIVE --out HOST/again --session-out HOST/learnt.toml"))
                .satisfies(again -> assertThat(again.code()).isEqualTo(2))
                .satisfies(again -> assertThat(again.err()).contains("never written over"));
    }

    @Test
    void namesFromOutsideSteerNeitherTerminalNorPage() throws IOException {
        recorded("2s");
        Files.move(drive.resolve("TR02.wav"), drive.resolve("<script>alert(1)\u001b[31m\u202e.wav"));

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.out()).contains("[U+001B]", "[U+202E]").doesNotContain("\u001b", "\u202e");
        String page = Files.readString(out.resolve("inspection.html"));
        assertThat(page).contains("&lt;script&gt;alert(1)").doesNotContain("<script>alert(1)", "\u001b", "\u202e");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            inspect DRIVE/no-such                          | there is no folder or file
            inspect DRIVE                                  | no recording lies in
            inspect DRIVE/notes.txt                        | is no WAVE file, and no drive or image
            inspect DRIVE --out DRIVE/records              | lies in the recording itself
            inspect DRIVE --session-out DRIVE/s.toml       | lies in the recording itself
            inspect                                        | PATH is missing
            signal DRIVE/s.wav --sample-rate 22050Hz       | allowed: 44100 Hz to 192000 Hz
            signal DRIVE/s.wav --length 30h                | allowed: 1 s to 24 h
            signal DRIVE/s.wav --word-length 12-bit        | is not a word length
            signal DRIVE/notes.txt                         | is there already
            """)
    void aWrongCommandLineIsRefused(String line, String words) throws IOException {
        Files.writeString(drive.resolve("notes.txt"), "nothing of a recording\n".repeat(100));

        Typed typed = type(line);

        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains(words, "  → ");
        assertThat(out).doesNotExist();
    }

    @Test
    void filesThatLieAboutThemselvesAreFoundAndNoneEndsTheInspection() throws IOException {
        recorded("2s");
        byte[] sound = Files.readAllBytes(drive.resolve("TR01.wav"));
        Files.write(drive.resolve("cut.wav"), Arrays.copyOf(sound, 30));
        Files.write(drive.resolve("empty.wav"), new byte[0]);
        Files.writeString(drive.resolve("text.wav"), "no recording");
        try (RandomAccessFile lie =
                new RandomAccessFile(drive.resolve("TR03.wav").toFile(), "rw")) {
            lie.seek(40);
            lie.writeInt(0x00_00_00_3F);
        }

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).isEqualTo(1);
        assertThat(record().findings()).extracting("kind").contains(FindingKind.HEADER_CUT, FindingKind.FILE_CUT);
        assertThat(record().findings())
                .extracting("sentence", String.class)
                .anyMatch(sentence -> sentence.contains("cut.wav: it ends inside its header"))
                .anyMatch(sentence -> sentence.contains("text.wav: it does not begin as a WAVE file does"))
                .anyMatch(sentence -> sentence.contains("empty.wav: it is empty"));
    }

    @Test
    void tenThousandRecordingsAreTooMany() throws IOException {
        byte[] small = Arrays.copyOf("RIFF".getBytes(StandardCharsets.US_ASCII), 12);
        for (int i = 0; i < 10_000; i++) {
            Files.write(drive.resolve("t" + i + ".wav"), small);
        }

        Typed typed = type("inspect DRIVE --out OUT");

        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("more than 8,192 recordings", "name the folder of one take");
    }

    /** The signal of every rate and word length, read by libsndfile. */
    @NeedsCommand("sndfile-info")
    @ParameterizedTest
    @CsvSource({"44.1kHz,16-bit,44100", "96kHz,32-bit,96000", "192kHz,32-bit-float,192000", "88.2kHz,24-bit,88200"})
    void aSignalOfAnyRateAndWordLengthIsRecognised(String rate, String bits, String hz) throws IOException {
        Typed made = type("signal DRIVE/s.wav --length 2s --sample-rate " + rate + " --word-length " + bits);
        assertThat(made.code()).as(made.err()).isZero();
        assertThat(made.err()).contains("CAUTION", "inputs only", "outputs muted", "no headphones", "-18 dBFS");
        String told = Host.run("sndfile-info", drive.resolve("s.wav").toString());
        assertThat(told).containsPattern("Sample Rate *: " + hz).containsPattern("Signal Max .*\\(-18.0[0-9]+ dB\\)");

        Typed typed = type("inspect DRIVE/s.wav --out OUT");

        assertThat(typed.code()).as(typed.out()).isZero();
        assertThat(typed.out()).contains("whole, to the sample");
    }

    /** As another clock and another rate make it: resampled by sox, turned round, quieter, and longer by 100 millionths. */
    @NeedsCommand("sox")
    @Test
    void aSignalThatSoxResampledIsFollowedToTheMillisecond() throws IOException {
        type("signal DRIVE/s.wav --length 20s");
        Path other = drive.resolve("other/TR01.wav");
        Files.createDirectory(other.getParent());
        Host.run(
                "sox",
                "-v",
                "-0.3",
                drive.resolve("s.wav").toString(),
                "-r",
                "44100",
                other.toString(),
                "speed",
                "0.9999");

        Typed typed = type("inspect DRIVE/other --out OUT");

        assertThat(typed.code()).as(typed.out()).isZero();
        InspectionRecord record = record();
        assertThat(record.takes().get(0).tracks().get(0).signal()).satisfies(signal -> {
            assertThat(signal.exact()).isFalse();
            assertThat(signal.breaks()).isZero();
            assertThat(signal.clockPpm()).isBetween(95.0, 105.0);
        });
    }
}
