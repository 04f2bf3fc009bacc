package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RunRecord;

/** The drive under test and the port it sat on. */
final class DrivePart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        DriveFacts drive = record.drive();
        List<Block> blocks = new ArrayList<>();
        blocks.add(drive(drive, record.tag()));
        blocks.add(port(drive));
        ReadyFacts ready = record.ready();
        if (ready != null) {
            blocks.add(ready(ready));
        }
        if (!drive.checkByHand().isEmpty()) {
            blocks.add(Prose.of("The computer could not tell; check by hand:"));
            blocks.add(Bullets.of(drive.checkByHand()));
        }
        return new Section(
                "drive",
                "Drive and port",
                "What the computer knows of them",
                drive.linkMbps() == null ? "" : link(drive.linkMbps()),
                blocks);
    }

    private static Facts drive(DriveFacts drive, @Nullable String tag) {
        return Facts.about("Drive")
                .row("Maker", drive.maker())
                .row("Model", drive.model())
                .row("Serial number", drive.serial())
                .rowIf(tag != null, "Tag", tag)
                .row("Size", bytes(drive.sizeBytes()))
                .row("File system", TradeName.orNull(drive.fileSystem()))
                .row("Size of the file system", bytes(drive.fileSystemBytes()))
                .row("Free before the run", bytes(drive.freeBytes()))
                .row("Allocation unit", bytes(drive.clusterBytes()))
                .rowIf(
                        drive.volume().scheme() != null,
                        "Partition table",
                        TradeName.orNull(drive.volume().scheme()))
                .rowIf(
                        drive.volume().offsetBytes() != null,
                        "Volume begins at",
                        bytes(drive.volume().offsetBytes()))
                .rowIf(drive.volume().label() != null, "Label", drive.volume().label())
                .rowIf(
                        drive.volume().dirty() != null,
                        "Left in order",
                        ordered(drive.volume().dirty()))
                .rowIf(
                        drive.volume().options() != null,
                        "Mount options",
                        drive.volume().options())
                .rowIf(drive.temperatureC() != null, "Temperature before the run", celsius(drive.temperatureC()))
                .row("Kind", rotational(drive.rotational()))
                .row("Removable", yesNo(drive.removable()))
                .row("System drive", yesNo(drive.system()))
                .build();
    }

    private static Facts port(DriveFacts drive) {
        Double link = drive.linkMbps();
        String speed = link == null ? null : link(link);
        return Facts.about("Port")
                .row("Bus", TradeName.orNull(drive.bus()))
                .row(
                        "Link speed",
                        speed != null && drive.linkSuspect()
                                ? speed + ", doubtful: the system prints the same for an unknown speed"
                                : speed)
                .rowIf(drive.port().path() != null, "Port", drive.port().path())
                .rowIf(drive.port().driver() != null, "Driver", drive.port().driver())
                .rowIf(drive.port().usbId() != null, "USB id", drive.port().usbId())
                .rowIf(drive.port().firmware() != null, "Firmware", drive.port().firmware())
                .rowIf(
                        !drive.port().besides().isEmpty(),
                        "On the same hub",
                        String.join(", ", drive.port().besides()))
                .row("Device", drive.node())
                .row("Mounted at", drive.mount())
                .row("Folder of the run", drive.folder())
                .build();
    }

    private static @Nullable String ordered(@Nullable Boolean dirty) {
        return dirty == null ? null : dirty ? "no: have it checked, or format it in the recorder" : "yes";
    }

    private static @Nullable String celsius(@Nullable Double degrees) {
        return degrees == null ? null : String.format(Locale.ROOT, "%.0f °C", degrees);
    }

    private static String link(double mbps) {
        return String.format(Locale.ROOT, "%.0f Mbit/s", mbps);
    }

    private static @Nullable String bytes(@Nullable Long bytes) {
        return bytes == null ? null : Units.bytes(bytes);
    }

    private static @Nullable String rotational(@Nullable Boolean rotational) {
        return rotational == null ? null : rotational ? "spinning disk" : "no moving parts";
    }

    private static @Nullable String yesNo(@Nullable Boolean value) {
        return value == null ? null : value ? "yes" : "no";
    }

    private static Facts ready(ReadyFacts ready) {
        return Facts.about("From plug-in to usable")
                .row("First sign", ready.deviceSeen() ? "the device itself" : "its file system being mounted")
                .row("Mounted after", Units.seconds(ready.mountedS()))
                .row("First file written and flushed after", Units.seconds(ready.usableS()))
                .row("Usual", "10 to 15 s at most (common practice, no source)")
                .build();
    }
}
