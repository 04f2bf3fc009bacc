package tracksoak.bench.drive.find;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.find.FoundDrive.Place;
import tracksoak.bench.drive.find.Suitability.Finding;
import tracksoak.bench.drive.find.Suitability.SystemDrive;
import tracksoak.bench.drive.find.Suitability.Target;
import tracksoak.report.record.facts.DriveFacts;

class SuitabilityTest {

    private static final long GIB = 1L << 30;
    private static final Target FOLDER = new Target(Path.of("/media/crew/SHOW"), true, true);

    private static FoundDrive drive(
            Place place, @Nullable Boolean system, boolean readOnly, @Nullable Long size, @Nullable Long free) {
        DriveFacts facts = DriveFacts.builder()
                .maker("Alder")
                .model("Pocket")
                .serial("1")
                .sizeBytes(64 * GIB)
                .bus("usb")
                .linkMbps(480.0)
                .removable(true)
                .system(system)
                .node("sdb1")
                .mount("/media/crew/SHOW")
                .fileSystem("exfat")
                .fileSystemBytes(size)
                .freeBytes(free)
                .clusterBytes(131072L)
                .build();
        return new FoundDrive(place, facts, "disk-8-16", readOnly, null);
    }

    private static List<Finding> findings(FoundDrive drive, long planned) {
        return findings(drive, FOLDER, planned, SystemDrive.MAY_BE_ALLOWED);
    }

    private static List<Finding> findings(FoundDrive drive, Target target, long planned, SystemDrive system) {
        Long size = drive.facts().fileSystemBytes();
        return Suitability.of(drive, target, planned, Suitability.reserveBytes(size == null ? 0 : size), system);
    }

    @Test
    void hasNothingAgainstAGoodDrive() {
        assertThat(findings(drive(Place.DRIVE, false, false, 64 * GIB, 60 * GIB), 10 * GIB))
                .isEmpty();
    }

    @Test
    void keepsFivePercentOr256MebibytesFree() {
        assertThat(Suitability.reserveBytes(0)).isEqualTo(256L << 20);
        assertThat(Suitability.reserveBytes(5 * GIB)).as("5 % is 256 MiB").isEqualTo(256L << 20);
        assertThat(Suitability.reserveBytes(100 * GIB)).isEqualTo(5 * GIB);
        FoundDrive drive = drive(Place.DRIVE, false, false, 100 * GIB, 15 * GIB);
        assertThat(findings(drive, 10 * GIB)).as("fits to the byte").isEmpty();
        assertThat(findings(drive, 10 * GIB + 1)).singleElement().satisfies(finding -> {
            assertThat(finding.refused()).isTrue();
            assertThat(finding.what()).isEqualTo("free room");
            assertThat(finding.sentence()).contains("the plan needs").contains("stay free");
        });
        assertThat(findings(drive(Place.DRIVE, false, false, null, null), GIB))
                .singleElement()
                .satisfies(finding -> assertThat(finding.refused()).isFalse());
    }

    @Test
    void beforeAPlanIsChosenNothingIsSaidOfOneNorOfAllowingTheSystemsDrive() {
        assertThat(Suitability.beforePlan(drive(Place.DRIVE, true, false, 64 * GIB, GIB >> 3), FOLDER))
                .extracting(Finding::sentence)
                .hasSize(2)
                .anySatisfy(sentence -> assertThat(sentence)
                        .contains("free room", "134 MB", "any run leaves 3.44 GB free and needs room beside")
                        .doesNotContain("plan", "0 B"))
                .anySatisfy(sentence ->
                        assertThat(sentence).contains("test another drive").doesNotContain("allow"));
    }

    @Test
    void keepsAnotherReserveFreeWhereOneIsAskedFor() {
        FoundDrive drive = drive(Place.DRIVE, false, false, 100 * GIB, 15 * GIB);
        assertThat(Suitability.of(drive, FOLDER, 14 * GIB, GIB, SystemDrive.MAY_BE_ALLOWED))
                .isEmpty();
        assertThat(Suitability.of(drive, FOLDER, 14 * GIB + 1, GIB, SystemDrive.MAY_BE_ALLOWED))
                .singleElement()
                .matches(Finding::refused);
    }

    @Test
    void refusesAFileSystemThatTakesTooFewFiles() {
        assertThat(Suitability.files(null, 12)).isEmpty();
        assertThat(Suitability.files(12L, 12)).isEmpty();
        assertThat(Suitability.files(11L, 12)).singleElement().satisfies(finding -> {
            assertThat(finding.refused()).isTrue();
            assertThat(finding.sentence())
                    .isEqualTo(
                            "free files 11: the file system takes no more, however much room is free, and the run"
                                    + " makes at least 12; delete files that are not needed, or format the drive in the recorder");
        });
    }

    @Test
    void refusesTheSystemsDriveUnlessTold() {
        FoundDrive drive = drive(Place.DRIVE, true, false, 64 * GIB, 60 * GIB);
        assertThat(findings(drive, GIB)).singleElement().matches(Finding::refused);
        assertThat(findings(drive, FOLDER, GIB, SystemDrive.ALLOWED))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.refused()).isFalse();
                    assertThat(finding.advice()).contains("NO VERDICT");
                });
        assertThat(findings(drive(Place.DRIVE, null, false, 64 * GIB, 60 * GIB), GIB))
                .singleElement()
                .satisfies(finding -> assertThat(finding.refused()).isFalse());
    }

    @Test
    void refusesWhatIsNoDrive() {
        for (Place place : List.of(Place.NETWORK, Place.MEMORY, Place.KERNEL)) {
            FoundDrive drive = drive(place, false, false, 64 * GIB, 60 * GIB);
            assertThat(findings(drive, FOLDER, GIB, SystemDrive.ALLOWED))
                    .as(place.name())
                    .singleElement()
                    .matches(Finding::refused);
        }
        FoundDrive layered = drive(Place.LAYERED, false, false, 64 * GIB, 60 * GIB);
        assertThat(findings(layered, GIB)).singleElement().matches(Finding::refused);
        assertThat(findings(layered, FOLDER, GIB, SystemDrive.ALLOWED))
                .singleElement()
                .satisfies(finding -> assertThat(finding.refused()).isFalse());
    }

    @Test
    void refusesSeveralDrivesUnderOneFileSystemAndNamesThoseUnderOneDevice() {
        FoundDrive spread = drive(Place.SPREAD, false, false, 64 * GIB, 60 * GIB);
        assertThat(findings(spread, FOLDER, GIB, SystemDrive.ALLOWED))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.refused()).isTrue();
                    assertThat(finding.sentence()).contains("several drives at once", "stands alone");
                });
        FoundDrive array = drive(Place.ARRAY, false, false, 64 * GIB, 60 * GIB);
        assertThat(findings(array, FOLDER, GIB, SystemDrive.MAY_BE_ALLOWED))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.refused()).isFalse();
                    assertThat(finding.sentence()).contains("all of them together and of none alone");
                });
    }

    @Test
    void refusesWhatCannotBeWrittenAndSaysAllAtOnce() {
        FoundDrive drive = drive(Place.DRIVE, true, true, 64 * GIB, GIB);
        Target file = new Target(Path.of("/media/crew/SHOW/a\nb.txt"), false, false);
        List<Finding> findings = findings(drive, file, 10 * GIB, SystemDrive.ALLOWED);
        assertThat(findings).extracting(Finding::what).containsExactly("path", "drive", "free room", "drive");
        assertThat(findings.get(0).sentence()).contains("[U+000A]").doesNotContain("\n");
        Target locked = new Target(Path.of("/media/crew/SHOW"), true, false);
        assertThat(findings(
                        drive(Place.DRIVE, false, false, 64 * GIB, 60 * GIB), locked, GIB, SystemDrive.MAY_BE_ALLOWED))
                .singleElement()
                .satisfies(finding -> assertThat(finding.sentence()).contains("may not write"));
    }

    @Test
    void looksAtAPath(@TempDir Path folder) throws IOException {
        assertThat(Target.of(folder)).isEqualTo(new Target(folder, true, true));
        Path file = Files.writeString(folder.resolve("a"), "a");
        assertThat(Target.of(file).folder()).isFalse();
        assertThat(Target.of(folder.resolve("none"))).isEqualTo(new Target(folder.resolve("none"), false, false));
    }
}
