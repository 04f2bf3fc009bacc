package tracksoak.profiles.base;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.EOFException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import java.util.zip.ZipException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DigestsTest {

    private static final long SEED = 5;

    @TempDir
    Path folder;

    /** The examples NIST gives for FIPS 180-4. */
    @ParameterizedTest
    @CsvSource({
        "'', e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        "abc, ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq, "
                + "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    })
    void sha256GivesThePublishedDigests(String text, String digest) {
        byte[] bytes = text.getBytes(US_ASCII);
        assertThat(Digests.sha256Hex(bytes)).isEqualTo(digest);
        assertThat(Digests.sha256(bytes)).isEqualTo(HexFormat.of().parseHex(digest));
    }

    /** The long example of FIPS 180-4: one million times the letter a. */
    @Test
    void sha256MayBeFedPieceByPiece() {
        MessageDigest digest = Digests.sha256();
        byte[] piece = "a".repeat(1000).getBytes(US_ASCII);
        for (int i = 0; i < 1000; i++) {
            digest.update(piece);
        }
        assertThat(HexFormat.of().formatHex(digest.digest()))
                .isEqualTo("cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    }

    @Test
    void gzipGivesBackWhatWentIn() throws IOException {
        Random random = new Random(SEED);
        for (int size : new int[] {0, 1, 63, 64, 65, 4096, 100_000}) {
            byte[] plain = new byte[size];
            random.nextBytes(plain);
            assertThat(Digests.gunzip(Digests.gzip(plain), size))
                    .as("seed %d", SEED)
                    .isEqualTo(plain);
        }
    }

    @Test
    void aFewBytesCannotBecomeAFlood() throws IOException {
        byte[] bomb = Digests.gzip(new byte[10_000_000]);
        assertThat(bomb).hasSizeLessThan(20_000);
        assertThat(Digests.gunzip(bomb, 1000))
                .as("one more tells there is more")
                .hasSize(1001);
        assertThat(Digests.gunzip(bomb, 10_000_000)).hasSize(10_000_000);
    }

    @Test
    void whatIsNoGzipIsRefused() {
        byte[] packed = Digests.gzip("some text that is packed".getBytes(US_ASCII));
        assertThatThrownBy(() -> Digests.gunzip("no gzip".getBytes(US_ASCII), 100))
                .isInstanceOf(ZipException.class);
        assertThatThrownBy(() -> Digests.gunzip(new byte[0], 100)).isInstanceOf(EOFException.class);
        assertThatThrownBy(() -> Digests.gunzip(Arrays.copyOf(packed, packed.length - 6), 100))
                .isInstanceOf(EOFException.class);
        byte[] damaged = packed.clone();
        damaged[packed.length - 5] ^= 1;
        assertThatThrownBy(() -> Digests.gunzip(damaged, 100)).isInstanceOf(ZipException.class);
    }

    /** Another program's view of the same format (RFC 1952). */
    @Test
    void theGzipOfTheSystemReadsOursAndWeReadIts() throws Exception {
        Optional<Path> found = Stream.of("/bin/gzip", "/usr/bin/gzip")
                .map(Path::of)
                .filter(Files::isExecutable)
                .findFirst();
        assumeTrue(found.isPresent(), "no gzip here");
        Path program = found.get();
        byte[] plain = "take 1, track 7\n".repeat(500).getBytes(US_ASCII);

        Path ours = Files.write(folder.resolve("ours.gz"), Digests.gzip(plain));
        assertThat(run(program, "-d", ours)).isZero();
        assertThat(folder.resolve("ours")).hasBinaryContent(plain);

        Path theirs = Files.write(folder.resolve("theirs"), plain);
        assertThat(run(program, "-9", theirs)).isZero();
        assertThat(Digests.gunzip(Files.readAllBytes(folder.resolve("theirs.gz")), plain.length))
                .isEqualTo(plain);
    }

    private static int run(Path program, String option, Path file) throws IOException, InterruptedException {
        return new ProcessBuilder(program.toString(), option, file.toString())
                .inheritIO()
                .start()
                .waitFor();
    }
}
