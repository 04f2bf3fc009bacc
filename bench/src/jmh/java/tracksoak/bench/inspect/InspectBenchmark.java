package tracksoak.bench.inspect;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import tracksoak.bench.recording.DiskFile;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHead;
import tracksoak.bench.recording.WaveHeaderReader;

/**
 * Inspecting a recording without a test signal beside a plain loop that reads the same bytes and adds them up; 0.8 of it is the aim.
 * Two threads inspect: one reads ahead, the other looks at what was read, so the slower one tells the speed where both have a processor. On two
 * processors that did nothing else it was 0.51 and 0.63 of the plain loop for one track of 24 bits, 0.49 and 0.42 for one of floats, 0.49 and 0.65 for
 * 32 tracks in a file, where the plain loop came to some 3.5 GB/s; read by the looking thread itself 0.44 and 0.50, 0.38 and 0.45, 0.61 and 0.47 (two
 * rounds taken in turn). Beside other work both are alike. Nearly all of the looking is the search for repeats: some value of every stretch of 1,024 bytes must be
 * looked at both times, whatever its distance in samples of 3 bytes: that is one in 23 bytes, at some 2.5 ns each.
 * The file lies in memory after the first round, so no drive is measured.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class InspectBenchmark {

    private static final int SAMPLES = 48_000 * 60 * 4;
    private static final int BLOCK = 256 << 10;

    private Path folder = Path.of("");
    private Recordings recordings = new Recordings(List.of(), List.of(), 0, null, false, "", "");
    /** Where a page begins: elsewhere some processors read at a third of their speed, and the inspection would seem faster than it is. */
    private final ByteBuffer block = ByteBuffer.allocateDirect(BLOCK + 4096)
            .alignedSlice(4096)
            .slice(0, BLOCK)
            .order(ByteOrder.LITTLE_ENDIAN);

    /** A track of four minutes of noise, 48 kHz and 24 bits. */
    @Setup
    public void record() throws IOException, UnreadableWave {
        folder = Files.createTempDirectory("tracksoak-inspect");
        Path file = folder.resolve("TR01.wav");
        WaveFormat format = new WaveFormat(1, 48_000, false, 3, 24);
        byte[] noise = new byte[3 * 48_000];
        Random random = new Random(1);
        try (OutputStream out = Files.newOutputStream(file)) {
            out.write(WaveHead.of(format, 3L * SAMPLES));
            for (int i = 0; i < SAMPLES / 48_000; i++) {
                random.nextBytes(noise);
                out.write(noise);
            }
        }
        try (FileBytes bytes = DiskFile.open(file)) {
            recordings = new Recordings(
                    List.of(new RecordedFile("TR01.wav", WaveHeaderReader.read(bytes), () -> DiskFile.open(file))),
                    List.of(),
                    0,
                    null,
                    false,
                    "",
                    "");
        }
    }

    /** Leaves nothing behind. */
    @TearDown
    public void delete() throws IOException {
        Files.delete(folder.resolve("TR01.wav"));
        Files.delete(folder);
    }

    /** The plain loop: reads all bytes, and adds them up eight at a time. */
    @Benchmark
    public long plainLoop() throws IOException {
        long sum = 0;
        try (FileChannel file = FileChannel.open(folder.resolve("TR01.wav"), StandardOpenOption.READ)) {
            while (file.read(block.clear()) > 0) {
                int end = block.position() & ~7;
                for (int i = 0; i < end; i += 8) {
                    sum += block.getLong(i);
                }
            }
        }
        return sum;
    }

    /** The inspection. */
    @Benchmark
    public int inspect() {
        Inspection inspection = new Inspection(recordings, (done, all) -> {}, () -> false);
        inspection.run();
        if (!inspection.findings().isEmpty()) {
            throw new IllegalStateException("something was found in a sound recording");
        }
        return inspection.takes().size();
    }
}
