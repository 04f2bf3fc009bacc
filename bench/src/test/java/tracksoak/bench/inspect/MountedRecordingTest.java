package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.drive.find.DriveFinder;
import tracksoak.bench.rig.LoopMount;
import tracksoak.bench.rig.NeedsRig;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.InspectionRecord;

/** A recording on a file system that is mounted, and on its device once it is not. */
@NeedsRig
class MountedRecordingTest {

    private static final int CHUNK = 96 << 10;

    @TempDir
    Path folder;

    /** Writes tracks as a small recorder does: a chunk of each in turn, and the headers at last. */
    private static void record(Path to, byte[] track, int tracks) throws IOException {
        Files.createDirectories(to);
        List<FileChannel> files = new ArrayList<>();
        for (int i = 1; i <= tracks; i++) {
            files.add(FileChannel.open(
                    to.resolve("TR0" + i + ".wav"), StandardOpenOption.WRITE, StandardOpenOption.CREATE_NEW));
        }
        for (int at = 0; at < track.length; at += CHUNK) {
            for (FileChannel file : files) {
                file.write(ByteBuffer.wrap(track, at, Math.min(CHUNK, track.length - at)), at);
            }
        }
        for (FileChannel file : files) {
            file.write(ByteBuffer.wrap(track, 0, 44), 0);
            file.force(true);
            file.close();
        }
    }

    private InspectionRecord inspected(TestRooms rooms, Path place, String name) {
        InspectJob job = new InspectJob(rooms, () -> 0, (done, all) -> {});
        return Objects.requireNonNull(job.run(new InspectJob.Order(
                        new UUID(7L << 12, 1L << 63),
                        place,
                        folder.resolve("out-" + name),
                        folder.resolve(name + ".toml"))))
                .record();
    }

    @Test
    void isInspectedWhereItIsMountedAndItsDeviceOnceItIsNot() throws IOException {
        Path signal = folder.resolve("signal.wav");
        assertThat(new SignalFile(48_000, SampleFormat.PCM_24, 8).write(signal)).isTrue();
        try (LoopMount loop = LoopMount.exfat(64)) {
            Path show = loop.path().resolve("show");
            record(show, Files.readAllBytes(signal), 3);
            TestRooms rooms = new TestRooms(folder, List.of(new DriveFinder().at(loop.path())));
            rooms.at.put(show.toRealPath(), new DriveFinder().at(show));

            InspectionRecord mounted = inspected(rooms, show, "mounted");

            assertThat(mounted.outcome()).as("%s", mounted.findings()).isEqualTo(Verdict.Outcome.PASS);
            assertThat(SessionReader.read(folder.resolve("mounted.toml")).chunkBytes())
                    .isEqualTo(CHUNK);
            assertThatThrownBy(() -> inspected(rooms, loop.device(), "in use"))
                    .isInstanceOf(Problem.class)
                    .hasMessageContaining("is mounted")
                    .hasMessageContaining(loop.path().toString());

            loop.unmount();
            InspectionRecord device = inspected(new TestRooms(folder, List.of()), loop.device(), "device");

            assertThat(device.outcome()).as("%s", device.findings()).isEqualTo(Verdict.Outcome.PASS);
            assertThat(SessionReader.read(folder.resolve("device.toml")).chunkBytes())
                    .isEqualTo(CHUNK);
        }
    }
}
