package tracksoak.bench.drive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.find.DriveFinder;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.rig.LoopMount;
import tracksoak.bench.rig.NeedsRig;
import tracksoak.report.record.facts.DriveFacts;

/** The finder on this very machine. */
@NeedsRig
class LoopFinderTest {

    @Test
    void findsALoopMountedDrive() throws IOException {
        try (LoopMount loop = LoopMount.ext4(32)) {
            Path folder = Files.createDirectory(loop.path().resolve("run"));
            FoundDrive found = new DriveFinder().at(folder);
            DriveFacts facts = found.in(folder);
            assertThat(facts.folder()).isEqualTo(String.valueOf(folder.getFileName()));
            assertThat(facts.node()).isEqualTo(loop.node());
            assertThat(facts.mount()).isEqualTo(String.valueOf(loop.path().getFileName()));
            assertThat(facts.sizeBytes()).isEqualTo(32L << 20);
            assertThat(facts.fileSystem()).isEqualTo("ext4");
            assertThat(facts.freeBytes()).isBetween(1L << 20, 32L << 20);
            assertThat(facts.system()).isFalse();
            assertThat(found.readOnly()).isFalse();
            assertThat(new DriveFinder().all())
                    .filteredOn(drive -> loop.node().equals(drive.facts().node()))
                    .singleElement()
                    .satisfies(drive -> {
                        assertThat(drive.facts().mount()).isEqualTo(loop.path().toString());
                        assertThat(drive.lockKey()).isEqualTo(found.lockKey());
                        assertThat(drive.toMount()).isNull();
                    });
            loop.refuseWrites();
            assertThat(new DriveFinder().at(folder).readOnly()).isTrue();
        }
    }

    @Test
    void listsADriveThatIsNotMountedAndSaysHowTo() {
        try (LoopMount loop = LoopMount.unmounted(512, "mkfs.vfat", "-F", "32")) {
            assertThat(new DriveFinder().all())
                    .filteredOn(drive -> loop.node().equals(drive.facts().node()))
                    .singleElement()
                    .satisfies(drive -> {
                        assertThat(drive.mounted()).isFalse();
                        assertThat(drive.facts().fileSystem()).isEqualTo("fat32");
                        assertThat(drive.toMount()).contains("/dev/" + loop.node());
                    });
        }
    }

    @Test
    void saysWhenAPathIsNotThere() {
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> new DriveFinder().at(Path.of("/no/such/place")))
                .isInstanceOf(java.nio.file.NoSuchFileException.class);
    }
}
