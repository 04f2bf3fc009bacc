package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.groups.Tuple.tuple;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.rig.Host;
import tracksoak.bench.rig.NeedsCommand;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.ImageFile;
import tracksoak.bench.volume.Volume;
import tracksoak.bench.volume.VolumeFile;
import tracksoak.bench.volume.VolumeReader;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionReader;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.inspection.Finding;
import tracksoak.report.record.facts.inspection.FindingKind;
import tracksoak.report.record.facts.inspection.ImpliedValue;
import tracksoak.report.record.facts.inspection.InspectionRecord;

/** Recordings inside images of drives: made by mkfs.fat and mtools, checked by fsck.fat. */
@NeedsCommand({"mkfs.vfat", "mcopy", "mmd", "fsck.fat"})
class RecordingOnVolumeTest {

    private static final int CLUSTER = 4096;
    private static final int CHUNK_CLUSTERS = 8;

    @TempDir
    Path folder;

    private Path image() throws IOException {
        Path image = folder.resolve("stick.img");
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(300L << 20);
        }
        Host.run("mkfs.vfat", "-F", "32", "-s", "8", image.toString());
        Host.run("mmd", "-i", image.toString(), "::SHOW");
        Path wave = folder.resolve("s.wav");
        assertThat(new SignalFile(48_000, SampleFormat.PCM_24, 8).write(wave)).isTrue();
        for (int track = 1; track <= 2; track++) {
            Host.run("mcopy", "-i", image.toString(), wave.toString(), "::SHOW/TR0" + track + ".WAV");
        }
        Files.delete(wave);
        return image;
    }

    private static Volume volume(Path image) throws IOException {
        try (ImageFile file = ImageFile.open(image)) {
            return VolumeReader.read(file);
        }
    }

    /** Lays the clusters of two files that lie one after the other so that they take turns, a chunk each. */
    private static void takeTurns(Path image) throws IOException {
        Volume volume = volume(image);
        List<VolumeFile> files = volume.files().stream()
                .filter(file -> file.path().endsWith(".WAV"))
                .toList();
        long first = cluster(volume, files.get(0).extents().get(0).startByte());
        int each = (int) (files.get(0).allocatedBytes() / CLUSTER);
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            byte[] old = new byte[2 * each * CLUSTER];
            file.seek(volume.heap().startByte() + (first - 2) * CLUSTER);
            file.readFully(old);
            List<List<Long>> chains = List.of(new ArrayList<>(), new ArrayList<>());
            long next = first;
            for (int at = 0; at < each; at += CHUNK_CLUSTERS) {
                for (List<Long> chain : chains) {
                    for (int i = at; i < Math.min(each, at + CHUNK_CLUSTERS); i++) {
                        chain.add(next++);
                    }
                }
            }
            for (int one = 0; one < 2; one++) {
                List<Long> chain = chains.get(one);
                for (int i = 0; i < each; i++) {
                    file.seek(volume.heap().startByte() + (chain.get(i) - 2) * CLUSTER);
                    file.write(old, (one * each + i) * CLUSTER, CLUSTER);
                    long follows = i + 1 < each ? chain.get(i + 1) : 0x0FFF_FFFFL;
                    for (var table : volume.tables()) {
                        file.seek(table.startByte() + 4 * chain.get(i));
                        file.writeInt(Integer.reverseBytes((int) follows));
                    }
                }
                file.seek(files.get(one).entryByte() + 20);
                file.writeShort(Short.reverseBytes((short) (chain.get(0) >>> 16)));
                file.seek(files.get(one).entryByte() + 26);
                file.writeShort(Short.reverseBytes(chain.get(0).shortValue()));
            }
        }
        Host.run("fsck.fat", "-n", image.toString());
    }

    private static long cluster(Volume volume, long byteOnDevice) {
        return (byteOnDevice - volume.heap().startByte()) / CLUSTER + 2;
    }

    private InspectionRecord inspected(Path image, @Nullable Path session) {
        InspectJob job = new InspectJob(new TestRooms(folder, List.of()), () -> 0, (done, all) -> {});
        InspectJob.Done done = job.run(new InspectJob.Order(
                new UUID(7L << 12, 1L << 63), image, folder.resolve("out-" + System.identityHashCode(job)), session));
        return Objects.requireNonNull(done).record();
    }

    @Test
    void aRecordingIsReadOutOfAnImageAndItsChunkIsToldByTheClusters() throws IOException {
        Path image = image();
        takeTurns(image);
        Path session = folder.resolve("learnt.toml");

        InspectionRecord record = inspected(image, session);

        assertThat(record.outcome()).as("%s", record.findings()).isEqualTo(Verdict.Outcome.PASS);
        assertThat(record.takes()).singleElement().satisfies(take -> {
            assertThat(take.tracks()).extracting("name").containsExactly("TR01", "TR02");
            assertThat(take.tracks())
                    .allSatisfy(track -> assertThat(track.signal()).isNotNull());
        });
        Session learnt = SessionReader.read(session);
        assertThat(learnt.chunkBytes()).isEqualTo(CHUNK_CLUSTERS * CLUSTER);
        assertThat(learnt.fileSystems()).containsExactly("fat32");
        assertThat(record.session())
                .filteredOn(value -> value.key().equals("chunk"))
                .singleElement()
                .satisfies(value -> assertThat(value.told()).isTrue());
    }

    @Test
    void wholeFilesOneAfterTheOtherTellNoChunk() throws IOException {
        InspectionRecord record = inspected(image(), folder.resolve("learnt.toml"));

        assertThat(record.session())
                .filteredOn(value -> value.key().equals("chunk"))
                .extracting(ImpliedValue::told, ImpliedValue::evidence)
                .containsExactly(tuple(false, "cannot be told: the clusters of the files do not take turns"));
    }

    @Test
    void whereHeadersWereNeverFinishedNothingIsSaidOfSpaceInAdvance() throws IOException {
        Path image = image();
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            for (VolumeFile wave : volume(image).files()) {
                if (wave.path().endsWith(".WAV")) {
                    file.seek(wave.extents().get(0).startByte() + 40);
                    file.writeInt(0);
                }
            }
        }

        InspectionRecord record = inspected(image, folder.resolve("learnt.toml"));

        assertThat(record.findings()).extracting(Finding::kind).contains(FindingKind.HEADER_UNFINISHED);
        assertThat(record.session())
                .filteredOn(value -> value.key().equals("space in advance"))
                .singleElement()
                .satisfies(value -> {
                    assertThat(value.told()).isFalse();
                    assertThat(value.value()).contains("never finished");
                });
    }

    @Test
    void aFileSystemThatWasNotUnmountedCleanlyIsNoPass() throws IOException {
        Path image = image();
        Volume volume = volume(image);
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            // bit 27 of the second entry, little-endian
            file.seek(volume.tables().get(0).startByte() + 7);
            file.write(0x07);
        }

        InspectionRecord record = inspected(image, null);

        assertThat(record.outcome()).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(record.findings()).extracting(Finding::kind).containsExactly(FindingKind.DIRTY);
        assertThat(record.reasons().get(0)).contains("not unmounted cleanly");
    }

    /** Gives one file the clusters of another from a place on, as a table that was not written whole does. */
    private static void cross(Path image, int fromCluster) throws IOException {
        Volume volume = volume(image);
        List<VolumeFile> files = volume.files().stream()
                .filter(file -> file.path().endsWith(".WAV"))
                .toList();
        long last = clusters(volume, files.get(0)).get(fromCluster - 1);
        long other = clusters(volume, files.get(1)).get(fromCluster);
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            for (var table : volume.tables()) {
                file.seek(table.startByte() + 4 * last);
                file.writeInt(Integer.reverseBytes((int) other));
            }
        }
    }

    private static List<Long> clusters(Volume volume, VolumeFile file) {
        List<Long> clusters = new ArrayList<>();
        for (Extent run : file.extents()) {
            for (long at = run.startByte(); at < run.endByte(); at += CLUSTER) {
                clusters.add(cluster(volume, at));
            }
        }
        return clusters;
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void clustersThatTwoFilesShareAreToldWithBothFilesAndTheSecond(boolean inTurns) throws IOException {
        Path image = image();
        if (inTurns) {
            takeTurns(image);
        }
        cross(image, 100);

        InspectionRecord record = inspected(image, null);

        assertThat(Host.attempt(60, "fsck.fat", "-n", image.toString()).output())
                .contains("share clusters");
        assertThat(record.outcome()).isEqualTo(Verdict.Outcome.FAIL);
        assertThat(record.findings())
                .filteredOn(one -> one.kind() == FindingKind.SHARED_PLACE)
                .extracting(Finding::tracks, Finding::atSample)
                .containsExactlyInAnyOrder(
                        tuple(List.of("TR01"), (100L * CLUSTER - 44) / 3),
                        tuple(List.of("TR02"), (100L * CLUSTER - 44) / 3));
        assertThat(record.findings())
                .extracting(Finding::sentence)
                .anyMatch(one -> one.matches(
                        "TR01: the [0-9,]+ samples \\([^)]*\\) from 0:00:02\\.844 on share their place on the"
                                + " drive with SHOW/TR02.WAV\\. .*"))
                .anyMatch(one -> one.startsWith("TR02: the ") && one.contains("with SHOW/TR01.WAV."))
                .noneMatch(one -> one.contains("should hold") || one.contains("contradicts"));
        assertThat(record.sentence()).contains("from 0:00:02.844 on");
    }
}
