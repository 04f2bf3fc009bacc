package tracksoak.bench.drive.find;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.find.FoundDrive.Place;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.DriveFacts;

/** Gathers what several sources say of a drive, and says in words what none of them could tell. One thread. */
final class FactsDraft {

    private final Hardware hardware;
    private final Place place;
    private final List<String> hints = new ArrayList<>();

    @Nullable
    String node;

    @Nullable
    String mount;

    @Nullable
    Boolean system;

    @Nullable
    String fileSystem;

    Touch.@Nullable Room room;

    DriveFacts.Port port = DriveFacts.Port.UNKNOWN;
    DriveFacts.Volume volume = DriveFacts.Volume.UNKNOWN;

    @Nullable
    Double temperatureC;

    boolean answered = true;
    long clusterBytes;
    long partBytes;

    FactsDraft(Hardware hardware, Place place) {
        this.hardware = hardware;
        this.place = place;
        hints.addAll(hardware.hints());
    }

    void hint(String sentence) {
        hints.add(sentence);
    }

    long fileSystemBytes() {
        return room != null && room.totalBytes() > 0 ? room.totalBytes() : partBytes;
    }

    DriveFacts facts() {
        if (!answered) {
            hints.add("The drive did not answer in time: check that it is awake and sound, then ask again.");
        }
        if (place == Place.DRIVE || place == Place.ARRAY) {
            hintUnknowns();
        }
        long cluster = room != null && room.blockBytes() > 0 ? room.blockBytes() : clusterBytes;
        return DriveFacts.builder()
                .maker(hardware.maker())
                .model(hardware.model())
                .serial(hardware.serial())
                .sizeBytes(hardware.sizeBytes())
                .bus(hardware.bus())
                .linkMbps(hardware.linkMbps())
                .linkSuspect(hardware.linkSuspect())
                .removable(hardware.removable())
                .rotational(hardware.rotational())
                .system(system)
                .node(Inert.kept(node))
                .mount(mount)
                .fileSystem(Inert.kept(fileSystem))
                .fileSystemBytes(fileSystemBytes() > 0 ? fileSystemBytes() : null)
                .freeBytes(room == null || room.totalBytes() <= 0 ? null : Long.valueOf(room.usableBytes()))
                .clusterBytes(cluster > 0 ? cluster : null)
                .temperatureC(temperatureC)
                .port(port)
                .volume(volume)
                .checkByHand(hints)
                .build();
    }

    private void hintUnknowns() {
        List<String> unknown = new ArrayList<>();
        if (hardware.maker() == null && hardware.model() == null) {
            unknown.add("model");
        }
        if (hardware.serial() == null) {
            unknown.add("serial number");
        }
        if (hardware.sizeBytes() == null) {
            unknown.add("size");
        }
        if (!unknown.isEmpty() && !"virtual".equals(hardware.bus())) {
            hints.add(
                    "The system does not tell the drive's " + String.join(", ", unknown) + ": read it off the label.");
        }
        if (hardware.bus() == null) {
            hints.add(
                    "The system does not tell how the drive is attached: look at the port, and see that it is the fast"
                            + " one.");
        } else if (hardware.linkMbps() == null
                && (hardware.bus().equals("usb") || hardware.bus().equals("sata"))) {
            hints.add("The system does not tell the link speed: look at port and cable.");
        }
        if (fileSystem == null) {
            hints.add("The file system's type could not be told: look it up in the computer's drive properties.");
        }
        if (system == null) {
            hints.add("It could not be told whether the computer runs from this drive: make sure it does not.");
        }
    }
}
