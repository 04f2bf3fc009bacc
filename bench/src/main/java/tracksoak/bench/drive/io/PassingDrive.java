package tracksoak.bench.drive.io;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import tracksoak.report.record.facts.IoMode;

/**
 * Hands every call on to another drive; whoever extends it says what it does otherwise. A call that {@link Drive} gets anew is handed on
 * unseen; a test holds a drive that must see all that may hang to it.
 */
public abstract class PassingDrive implements Drive {

    /** The drive behind this one. */
    protected final Drive drive;

    protected PassingDrive(Drive drive) {
        this.drive = drive;
    }

    @Override
    public DriveFile create(String name) throws IOException {
        return drive.create(name);
    }

    @Override
    public DriveFile open(String name) throws IOException {
        return drive.open(name);
    }

    @Override
    public List<String> list() throws IOException {
        return drive.list();
    }

    @Override
    public void delete(String name) throws IOException {
        drive.delete(name);
    }

    @Override
    public void syncFolder() throws IOException {
        drive.syncFolder();
    }

    @Override
    public long usableBytes() throws IOException {
        return drive.usableBytes();
    }

    @Override
    public int alignmentBytes() {
        return drive.alignmentBytes();
    }

    @Override
    public int roomUnitBytes() {
        return drive.roomUnitBytes();
    }

    @Override
    public Spreading spreading() {
        return drive.spreading();
    }

    @Override
    public int spreadingUnitBytes() {
        return drive.spreadingUnitBytes();
    }

    @Override
    public String spreadingReason() {
        return drive.spreadingReason();
    }

    @Override
    public void steer(double share) {
        drive.steer(share);
    }

    @Override
    public IoMode ioMode() {
        return drive.ioMode();
    }

    @Override
    public String ioReason() {
        return drive.ioReason();
    }

    @Override
    public Optional<Counters> counters() {
        return drive.counters();
    }

    @Override
    public long busyMs() {
        return drive.busyMs();
    }

    @Override
    public Presence presence() {
        return drive.presence();
    }

    @Override
    public boolean keepsBodies() {
        return drive.keepsBodies();
    }

    @Override
    public void forgetCached() {
        drive.forgetCached();
    }

    @Override
    public void close() throws IOException {
        drive.close();
    }
}
