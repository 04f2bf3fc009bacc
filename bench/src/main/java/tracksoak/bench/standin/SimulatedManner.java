package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.drive.io.Drive.Presence;
import tracksoak.bench.simulated.BareDrive;
import tracksoak.bench.simulated.Call;
import tracksoak.bench.standin.trace.Asked;

/** Behaves like a simulated drive, in real time. Of what such a drive shows wrongly, a block of 4 KiB is the smallest piece. */
final class SimulatedManner implements Manner {

    private final BareDrive drive;

    SimulatedManner(BareDrive drive) {
        this.drive = drive;
    }

    @Override
    public long serviceNs(Asked asked, long startNs, long offset, long bytes) throws Refused {
        if (drive.presence() == Presence.GONE) {
            throw new Refused(Nbd.EIO, 0, true);
        }
        if (drive.presence() == Presence.READ_ONLY && asked != Asked.READ && asked != Asked.FLUSH) {
            throw new Refused(Nbd.EPERM, 0, false);
        }
        Call.Kind kind = switch (asked) {
            case WRITE, ZEROS -> Call.Kind.WRITE;
            case READ -> Call.Kind.READ;
            case FLUSH -> Call.Kind.FLUSH;
            case TRIM, NOTE -> null;
        };
        if (kind == null) {
            return 0;
        }
        try {
            return drive.serviceNs(kind, startNs, offset, (int) Math.min(bytes, Integer.MAX_VALUE));
        } catch (IOException refused) {
            boolean gone = drive.presence() == Presence.GONE;
            throw new Refused(
                    drive.presence() == Presence.READ_ONLY ? Nbd.EPERM : Nbd.EIO, drive.refusedAfterNs(), gone);
        }
    }

    @Override
    public void write(Store image, ByteBuffer data, long offset) throws IOException {
        if (!drive.lies()) {
            image.write(data, offset);
            return;
        }
        int first = (int) (offset / BareDrive.BLOCK);
        long end = offset + data.remaining();
        drive.wrote(first, (int) ((end + BareDrive.BLOCK - 1) / BareDrive.BLOCK) - first);
        int limit = data.limit();
        long at = offset;
        while (at < end) {
            int piece = piece(at, end);
            data.limit(data.position() + piece);
            if (drive.look((int) (at / BareDrive.BLOCK)).stale()) {
                data.position(data.limit()); // it shows what was there before, for ever
            } else {
                image.write(data, at);
            }
            data.limit(limit);
            at += piece;
        }
    }

    @Override
    public void read(Store image, ByteBuffer data, long offset) throws IOException {
        if (!drive.lies()) {
            image.read(data, offset);
            return;
        }
        int limit = data.limit();
        long end = offset + data.remaining();
        long at = offset;
        while (at < end) {
            int piece = piece(at, end);
            int from = data.position();
            data.limit(from + piece);
            BareDrive.Shown shown = drive.look((int) (at / BareDrive.BLOCK));
            if (shown.zeros()) {
                while (data.hasRemaining()) {
                    data.put((byte) 0);
                }
            } else {
                image.read(data, (long) shown.block() * BareDrive.BLOCK + at % BareDrive.BLOCK);
            }
            if (shown.flipped()) {
                data.put(from, (byte) (data.get(from) ^ 0x10));
            }
            data.limit(limit);
            at += piece;
        }
    }

    private static int piece(long at, long end) {
        return (int) Math.min(end - at, BareDrive.BLOCK - at % BareDrive.BLOCK);
    }
}
