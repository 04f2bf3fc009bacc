package tracksoak.bench.rig;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.PassingDrive;
import tracksoak.bench.drive.io.PassingFile;

/** A drive that leaves out what lies between the header of a file and {@code from}: large files in no time. */
final class HollowDrive extends PassingDrive {

    private final long from;

    HollowDrive(Drive drive, long from) {
        super(drive);
        this.from = from;
    }

    @Override
    public DriveFile create(String name) throws IOException {
        return new PassingFile(drive.create(name)) {
            @Override
            public void write(ByteBuffer source, long position) throws IOException {
                if (position < 2L * alignmentBytes() || position >= from) {
                    file.write(source, position);
                } else {
                    source.position(source.limit());
                }
            }
        };
    }
}
