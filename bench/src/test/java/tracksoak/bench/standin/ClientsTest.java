package tracksoak.bench.standin;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.rig.Host;
import tracksoak.bench.rig.NeedsCommand;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.bench.standin.trace.Asked;
import tracksoak.bench.standin.trace.Entry;
import tracksoak.bench.standin.trace.Trace;

/** Clients that are not ours, of two projects: libnbd (nbdinfo, nbdcopy, nbdsh) and QEMU (qemu-img, qemu-io). */
@NeedsCommand({"nbdinfo", "nbdcopy", "nbdsh", "qemu-img", "qemu-io"})
class ClientsTest {

    private static final int SIZE = 24 << 20;

    @TempDir
    Path folder;

    @Test
    void copiesComeBackByteForByte() throws IOException {
        Path source = folder.resolve("source");
        byte[] bytes = new byte[SIZE];
        new Random(5).nextBytes(bytes);
        Files.write(source, bytes);
        try (Serving serving = new Serving(folder, SIZE, null)) {
            assertThat(Host.run("nbdinfo", serving.uri()))
                    .contains("newstyle-fixed")
                    .contains("using simple packets")
                    .contains("export-size: " + SIZE)
                    .contains("can_flush: true")
                    .contains("can_fua: true")
                    .contains("can_multi_conn: true")
                    .contains("can_trim: true")
                    .contains("can_zero: true")
                    .contains("block_size_maximum: 33554432");
            assertThat(Host.run("nbdinfo", "--list", serving.uri())).contains("export=\"stand-in\"");
            Host.run("nbdcopy", "--flush", source.toString(), serving.uri());
            Path back = folder.resolve("back");
            Host.run("nbdcopy", serving.uri(), back.toString());
            assertThat(Files.mismatch(source, back)).isEqualTo(-1);
            Path converted = folder.resolve("converted");
            Host.run("qemu-img", "convert", "-f", "raw", "-O", "raw", serving.uri(), converted.toString());
            assertThat(Files.mismatch(source, converted)).isEqualTo(-1);
        }
        assertThat(Files.mismatch(source, Serving.image(folder))).isEqualTo(-1);
        long[] written = new long[1];
        Trace trace = Trace.read(Serving.trace(folder), entry -> written[0] += entry.writes() ? entry.length() : 0);
        assertThat(trace.whole()).isTrue();
        assertThat(trace.driveBytes()).isEqualTo(SIZE);
        assertThat(written[0]).isEqualTo(SIZE);
    }

    @Test
    void patternsAreReadAsTheyWereWritten() throws IOException {
        try (Serving serving = new Serving(folder, SIZE, null)) {
            assertThat(Host.run(
                            "qemu-io",
                            "-f",
                            "raw",
                            "-c",
                            "write -P 0x5a 1000000 70000",
                            "-c",
                            "read -P 0x5a 1000000 70000",
                            "-c",
                            "write -z 1000000 512",
                            "-c",
                            "read -P 0 1000000 512",
                            "-c",
                            "discard 0 1M",
                            "-c",
                            "write -f -P 3 4096 4096",
                            "-c",
                            "flush",
                            "-c",
                            "read -P 3 4096 4096",
                            serving.uri()))
                    .doesNotContain("failed")
                    .contains("wrote 70000/70000");
            assertThat(Host.run(
                            "env",
                            "PATH=/usr/bin:/bin", // the system's Python, for which the library is installed
                            "nbdsh",
                            "-u",
                            serving.uri(),
                            "-c",
                            "h.pwrite(b'x'*512, 512, nbd.CMD_FLAG_FUA)",
                            "-c",
                            "h.zero(512, 1024); h.trim(4096, 0); h.flush()",
                            "-c",
                            "print(h.get_size(), h.pread(1024, 512) == b'x'*512 + bytes(512))",
                            "-c",
                            "h.shutdown()"))
                    .contains(SIZE + " True");
        }
        List<Asked> asked = new ArrayList<>();
        List<Entry> throughout = new ArrayList<>();
        Trace.read(Serving.trace(folder), entry -> {
            asked.add(entry.asked());
            if (entry.throughout()) {
                throughout.add(entry);
            }
        });
        assertThat(asked).contains(Asked.READ, Asked.WRITE, Asked.FLUSH, Asked.TRIM, Asked.ZEROS);
        assertThat(throughout).extracting(Entry::offset).contains(4096L, 512L);
    }

    @Test
    void seesWhatAFakeDriveDoes() throws IOException {
        long real = 8L << 30;
        Path image = Serving.image(folder);
        try (Serving serving = new Serving(
                folder, 16L << 30, SimulatedDrives.named("fake-zero").orElseThrow())) {
            assertThat(Host.attempt(
                                    20,
                                    "qemu-io",
                                    "-f",
                                    "raw",
                                    "-c",
                                    "write -P 7 0 8192",
                                    "-c",
                                    "read -P 7 0 8192",
                                    "-c",
                                    "write -P 7 " + (real + (4L << 30)) + " 8192",
                                    "-c",
                                    "read -P 0 " + (real + (4L << 30)) + " 8192",
                                    serving.uri())
                            .output())
                    .doesNotContain("failed");
        }
        assertThat(image).exists();
    }
}
