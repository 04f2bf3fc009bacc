package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Verdicts.criterion;
import static tracksoak.bench.rig.Verdicts.failed;
import static tracksoak.bench.rig.Verdicts.fault;
import static tracksoak.bench.rig.Verdicts.phase;
import static tracksoak.bench.rig.Verdicts.told;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ProbeFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.record.json.RecordFormats;

/** What only a real kernel's USB, FAT and exFAT drivers show. Nothing here is about time. */
@NeedsGuest
@Timeout(600)
class UsbStickTest {

    private static final long GB = 1_000_000_000L;
    private static final long SIZE = 600L << 20;
    private static final long SOME = 4 << 20;
    private static final String MEND = "have it checked or format it in the recorder";

    /** Microsoft, exFAT file system specification: VolumeFlags, bit 1 of which says dirty. */
    private static final int EXFAT_FLAGS = 106;

    /** Linux and other systems keep the state of a FAT32 volume here, bit 0 of which says dirty. */
    private static final int FAT_STATE = 65;

    @TempDir
    static Path folder;

    private static Guest guest;

    @BeforeAll
    static void boot() {
        guest = Guest.boot(folder);
    }

    @AfterAll
    static void shutDown() {
        guest.close();
    }

    @AfterEach
    void clear() {
        guest.clear();
    }

    @Test
    void chunksAreWrittenAsTheyAreAtAnyClusterSize() {
        Stick exfat = Stick.of(folder, "EXFAT-4", Stick.EXFAT, sizes(GB, GB, GB, GB));
        // FAT32 has at least 65,525 clusters
        Stick fat = Stick.of(folder, "FAT32-4", Stick.FAT32, sizes(3 * GB, 10 * GB, 20 * GB, 40 * GB))
                .atPort(3);
        guest.plug(exfat);
        guest.plug(fat);

        String told = guest.run("""
                e=$(disk EXFAT-4) f=$(disk FAT32-4) part=0
                for kib in 32 128 256 512; do
                  part=$((part + 1))
                  mkfs.exfat -c ${kib}K /dev/$e$part && mounted exfat /dev/$e$part /tmp/stick/exfat-$kib || exit 1
                done
                mkfs.vfat -F 32 -s 64 /dev/${f}1 && mkfs.vfat -F 32 -S 1024 -s 128 /dev/${f}2 &&
                  mkfs.vfat -F 32 -S 2048 -s 128 /dev/${f}3 && mkfs.vfat -F 32 -S 4096 -s 128 /dev/${f}4 || exit 1
                part=0
                for kib in 32 128 256 512; do
                  part=$((part + 1))
                  mounted vfat /dev/$f$part /tmp/stick/vfat-$kib || exit 1
                done
                program tracksoak.bench.rig.CountedWriting /tmp/stick/exfat-* /tmp/stick/vfat-*
                """);

        List<String[]> lines = told.lines()
                .filter(line -> line.startsWith("counted "))
                .map(line -> line.split(" ", -1))
                .toList();
        assertThat(lines).hasSize(8);
        for (String[] line : lines) {
            String as = String.join(" ", line);
            long payload = (long) CountedWriting.CHUNKS * CountedWriting.CHUNK;
            assertThat(line[2]).as(as).isEqualTo("DIRECT");
            assertThat(Long.parseLong(line[3])).as(as).isEqualTo(Long.parseLong(line[1].replaceAll(".*-", "")) << 10);
            assertThat(Long.parseLong(line[4])).as("size, %s", as).isEqualTo(payload);
            assertThat((double) Long.parseLong(line[5]) / payload)
                    .as("growing, %s", as)
                    .isBetween(1.0, 1.5);
            assertThat((double) Long.parseLong(line[6]) / payload)
                    .as("inside, %s", as)
                    .isBetween(1.0, 1.01);
        }
    }

    @Test
    void tellsWhichStickItIs() throws IOException {
        Stick stick = Stick.of(folder, "ID-0042", Stick.EXFAT, SIZE);
        guest.plug(stick);
        String told = guest.run("""
                disk=$(disk ID-0042)
                mkfs.exfat -c 128K -L TAKES /dev/${disk}1 && mounted exfat /dev/${disk}1 /tmp/stick/id || exit 1
                tracksoak drives /tmp/stick/id --json >/tmp/share/drives.json
                """);

        JsonNode drive = new ObjectMapper()
                .readTree(Files.readAllBytes(guest.share().resolve("drives.json")))
                .at("/drives/0");
        assertThat(drive.path("serial").asText()).as(told).isEqualTo("ID-0042");
        assertThat(drive.path("bus").asText()).isEqualTo("usb");
        assertThat(drive.path("removable").asBoolean()).isTrue();
        assertThat(drive.path("sizeBytes").asLong()).isEqualTo(Stick.FIRST + SIZE);
        assertThat(drive.path("fileSystem").asText()).isEqualTo("exfat");
        assertThat(drive.path("clusterBytes").asLong()).isEqualTo(128 << 10);
        // the emulator's own ids
        assertThat(drive.at("/port/usbId").asText()).isEqualTo("46f4:0001");
        assertThat(drive.at("/port/driver").asText()).isEqualTo("usb-storage");
        assertThat(drive.at("/port/path").asText()).matches("\\d+-2");
        assertThat(drive.at("/port/besides")).isEmpty();
        assertThat(drive.at("/volume/scheme").asText()).isEqualTo("mbr");
        assertThat(drive.at("/volume/offsetBytes").asLong()).isEqualTo(Stick.FIRST);
        assertThat(drive.at("/volume/label").asText()).isEqualTo("TAKES");
        assertThat(drive.at("/volume/dirty").asBoolean(true)).isFalse();
        assertThat(drive.at("/volume/options").asText()).startsWith("rw,");
    }

    /** Clusters of 512 KiB, and a pull out of the middle of a take. */
    @Test
    void aPullInATakeIsToldAndWhatToDo() throws IOException {
        Stick stick = Stick.of(folder, "TAKE-1", Stick.EXFAT, SIZE);
        guest.plug(stick);
        guest.run("""
                disk=$(disk TAKE-1)
                mkfs.exfat -c 512K /dev/${disk}1 && mounted exfat /dev/${disk}1 /tmp/stick/take
                """);
        RunRecord record = pulled(stick, "/tmp/stick/take", "line-check --take 2min", " take, ", PhaseKind.TAKE);

        PhaseFacts take = phase(record, PhaseKind.TAKE);
        assertThat(take.bytes())
                .as("written in the session's own chunks, whatever the cluster")
                .isEqualTo(take.operations() * record.session().chunkBytes());
        assertThat(stick.byteAt(EXFAT_FLAGS) & 2).as("marked dirty").isEqualTo(2);
        // as a person would who has not read a word: plugs it in, and records on
        guest.plug(stick);
        String told = guest.run("""
                umount -l /tmp/stick/take; disk=$(disk TAKE-1); mounted exfat /dev/${disk}1 /tmp/stick/again || exit 1
                tracksoak drives /tmp/stick/again; tracksoak qualify /tmp/stick/again --session trio-8 --plan line-check --dry-run
                tracksoak clear /tmp/stick/again --yes || exit 1
                ls -a /tmp/stick/again
                """);
        assertThat(told)
                .containsPattern("left in order +no: " + MEND)
                .containsPattern("marked dirty.*\n?.*" + MEND)
                .contains("this volume was not unmounted in order: " + MEND);
        assertThat(told.substring(told.lastIndexOf(".."))).doesNotContain("TRACKSOAK");
    }

    @Test
    void aPullInAFillIsToldAndWhatToDo() throws IOException {
        Stick stick = Stick.of(folder, "FILL-1", Stick.FAT32, SIZE);
        guest.plug(stick);
        guest.run("""
                disk=$(disk FILL-1)
                mkfs.vfat -F 32 -s 8 /dev/${disk}1 && mounted vfat /dev/${disk}1 /tmp/stick/fill
                """);
        pulled(stick, "/tmp/stick/fill", "full-show", " fill, ", PhaseKind.FILL);

        assertThat(stick.byteAt(FAT_STATE) & 1).as("marked dirty").isEqualTo(1);
        guest.plug(stick);
        String told = guest.run("""
                umount -l /tmp/stick/fill; disk=$(disk FILL-1); mounted vfat /dev/${disk}1 /tmp/stick/dirty || exit 1
                tracksoak drives /tmp/stick/dirty; umount /tmp/stick/dirty
                fsck.vfat -a /dev/${disk}1; test $? -le 1
                """);
        assertThat(told).containsPattern("left in order +no: " + MEND);
        guest.pull(stick);
        guest.plug(stick);
        String checked = guest.run("""
                mounted vfat /dev/$(disk FILL-1)1 /tmp/stick/good && tracksoak clear /tmp/stick/good --yes
                """);
        assertThat(checked).contains("deleted /tmp/stick/good/TRACKSOAK-").doesNotContain(MEND);
    }

    @Test
    void whatADrillFindsIsWhatReachedTheStick() throws IOException {
        Stick stick = Stick.of(folder, "DRILL-1", Stick.EXFAT, SIZE);
        guest.plug(stick);
        guest.run("""
                disk=$(disk DRILL-1)
                mkfs.exfat -c 128K /dev/${disk}1 && mounted exfat /dev/${disk}1 /tmp/stick/drill
                """);
        Guest.Script drill = guest.start(
                "tracksoak drill /tmp/stick/drill --session trio-8 --flush 3s --reserve 16MiB --after 4s --yes"
                        + " --out /tmp/share/drill");
        drill.awaitOutput("recording; the drive will be pulled by something else");
        await(drill, stick, 3 * SOME);
        guest.pull(stick);
        drill.awaitOutput("plug the drive in again");
        Map<Integer, BitSet> medium = DrillOnDrivesTest.medium(stick.image());
        guest.plug(stick);
        guest.run("""
                umount -l /tmp/stick/drill; disk=$(disk DRILL-1); fsck.exfat -y /dev/${disk}1
                mounted exfat /dev/${disk}1 /tmp/stick/another
                """);
        int code = drill.await();

        assertThat(code).as(drill.toString()).isZero();
        DrillRecord record = RecordFormats.DRILL.read(
                Files.readAllBytes(guest.share().resolve("drill").resolve("drill.json")));
        DrillOnDrivesTest.agrees(record, medium);
        assertThat(Objects.requireNonNull(record.back()).mount()).isEqualTo("another");
    }

    @Test
    void waitsForAStickAndTestsIt() throws IOException {
        Stick stick = Stick.of(folder, "WAIT-1", Stick.EXFAT, SIZE);
        guest.plug(stick);
        guest.run("mkfs.exfat /dev/$(disk WAIT-1)1");
        guest.pull(stick);
        Guest.Script run = guest.start("tracksoak qualify --wait --wait-limit 5min --session trio-8 --plan line-check"
                + " --take 2s --idle 0s --length 60s --reserve 16MiB --out /tmp/share/wait");
        run.awaitOutput("plug it in now");
        guest.plug(stick);
        guest.run("mounted exfat /dev/$(disk WAIT-1)1 /tmp/stick/wait");
        int code = run.await();

        // whether it is fast enough an emulated computer cannot tell
        assertThat(code).as(run.toString()).isIn(0, 1, 4);
        RunRecord record = RecordFile.load(guest.share().resolve("wait").resolve("record.json"));
        ReadyFacts ready = Objects.requireNonNull(record.ready());
        assertThat(ready.deviceSeen()).as(run.toString()).isTrue();
        assertThat(ready.usableS()).isGreaterThan(ready.mountedS());
        assertThat(record.drive().serial()).isEqualTo("WAIT-1");
        assertThat(record.state()).isEqualTo(RunState.COMPLETE);
        ProbeFacts probes = Objects.requireNonNull(record.method().probes());
        // Linux gives a file on exFAT room without writing it since 6.8
        assertThat(probes.placed() >= 64 || probes.refused().contains("on exFAT, as this computer's kernel has it"))
                .as(probes.toString())
                .isTrue();
        assertThat(criterion(record, "intact").met()).as(told(record)).isTrue();
        assertThat(guest.run("ls /tmp/stick/wait")).doesNotContain("TRACKSOAK");
    }

    @Test
    void aSlidLockSwitchIsSaidBeforeAnythingIsWritten() {
        Stick stick = Stick.of(folder, "LOCK-1", Stick.FAT32, SIZE);
        guest.plug(stick);
        guest.run("mkfs.vfat -F 32 /dev/$(disk LOCK-1)1");
        guest.pull(stick);
        guest.plug(stick.writeProtected());
        Guest.Script run = guest.start("""
                mounted vfat /dev/$(disk LOCK-1)1 /tmp/stick/lock
                tracksoak qualify /tmp/stick/lock --session trio-8 --plan line-check --take 2s --reserve 16MiB
                """);

        assertThat(run.await()).as(run.toString()).isEqualTo(3);
        assertThat(run.output())
                .contains("it refuses writes", "move its lock switch")
                .doesNotContain("\tat ");
    }

    /** Half as large as it says: what lies beyond is lost. A take alone would not come so far. */
    @Test
    void aFakeIsFoundInALineCheckByProbes() throws IOException {
        Stick stick = Stick.of(folder, "FAKE-1", Stick.FAT32, SIZE);
        Backend backend = Backend.served(Files.createDirectory(folder.resolve("fake")), Stick.FIRST + SIZE);
        try {
            guest.plug(stick, backend);
            // no table of partitions, as some sticks come
            guest.run("""
                    disk=$(disk FAKE-1)
                    mkfs.vfat -I -F 32 -s 8 /dev/$disk && mounted vfat /dev/$disk /tmp/stick/fake
                    """);
            backend.set(Faults.none().dropFrom(SIZE / 2));
            Guest.Script run = guest.start("tracksoak qualify /tmp/stick/fake --session trio-8 --plan line-check"
                    + " --take 2s --idle 0s --length 60s --reserve 16MiB --out /tmp/share/fake");

            assertThat(run.await()).as(run.toString()).isEqualTo(1);
            RunRecord record = RecordFile.load(guest.share().resolve("fake").resolve("record.json"));
            failed(record, "intact");
            ProbeFacts probes = Objects.requireNonNull(record.method().probes());
            assertThat(probes.placed()).as(told(record)).isGreaterThan(64);
            ReadBackFacts found =
                    Objects.requireNonNull(phase(record, PhaseKind.PROBES).readBack());
            assertThat(found.bad() / (double) found.blocks())
                    .as("the half that is not there, %s", told(record))
                    .isBetween(0.4, 0.6);
            assertThat(record.drive().volume().scheme()).isEqualTo("none");
        } finally {
            guest.clear();
            backend.kill();
        }
    }

    /** Runs a plan, pulls the stick once it says that it is at it and has written some MB, and hears the truth. */
    private static RunRecord pulled(Stick stick, String mount, String plan, String at, PhaseKind during)
            throws IOException {
        String name = stick.serial();
        Guest.Script run = guest.start("alone qualify " + mount + " --session trio-8 --plan " + plan
                + " --idle 0s --length 60s --reserve 16MiB --out /tmp/share/" + name);
        run.awaitOutput(at);
        await(run, stick, SOME);
        guest.pull(stick);
        int code = run.await();

        String said = run.output();
        assertThat(code).as(run.toString()).isEqualTo(1);
        assertThat(said)
                .contains("the drive is gone, with what the run wrote still on it", "once it is back: " + MEND)
                .contains("tracksoak clear")
                .doesNotContain("\tat ", "NotOurs", "counters", "Exception");
        RunRecord record = RecordFile.load(guest.share().resolve(name).resolve("record.json"));
        assertThat(fault(record).kind()).as(told(record)).isEqualTo(Fault.Kind.GONE);
        PhaseFacts last = record.phases().get(record.phases().size() - 1);
        assertThat(last.kind()).isEqualTo(during);
        assertThat(last.complete()).isFalse();
        assertThat(record.state()).isEqualTo(RunState.COMPLETE);
        failed(record, "lost-audio");
        assertThat(record.drive().volume().dirty()).as("before the run").isFalse();
        assertThat(Files.readString(guest.share().resolve(name).resolve("report.html")))
                .contains("have it checked or format it in the recorder")
                .doesNotContain("NotOurs");
        return record;
    }

    /** Waits until the script has written so much more. */
    private static void await(Guest.Script script, Stick stick, long bytes) {
        long before = guest.written(stick);
        assertThat(Host.await(120_000, () -> guest.written(stick) > before + bytes || script.ended()))
                .as(script.toString())
                .isTrue();
    }

    private static long[] sizes(long... bytes) {
        return LongStream.of(bytes).map(each -> each >> 20 << 20).toArray();
    }
}
