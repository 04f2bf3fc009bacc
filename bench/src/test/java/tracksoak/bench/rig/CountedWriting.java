package tracksoak.bench.rig;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.stream.AlignedBuffer;

/**
 * Writes chunks that are no multiple of any cluster in each folder it is given, first so that the file grows, then inside it,
 * and says what the device's counters made of it. A program of its own, for a {@link Guest}.
 */
final class CountedWriting {

    static final int CHUNK = 9 * 4096;
    static final int CHUNKS = 64;

    private CountedWriting() {}

    /** One line each: folder, way of writing, cluster, size of the file, bytes the device took while it grew and inside it. */
    public static void main(String[] folders) throws IOException {
        for (String folder : folders) {
            System.out.println("counted " + folder + " " + counted(Path.of(folder)));
        }
    }

    private static String counted(Path folder) throws IOException {
        RealDrive drive = RealDrive.open(folder);
        ByteBuffer chunk = AlignedBuffer.allocate(CHUNK, drive.alignmentBytes());
        // incompressible, and the same every time
        byte[] noise = new byte[CHUNK];
        new Random(20_260_101).nextBytes(noise);
        chunk.put(noise);
        try (drive;
                DriveFile file = drive.create("track.soak")) {
            long growing = taken(drive, file, chunk);
            long inside = taken(drive, file, chunk);
            return drive.ioMode() + " " + drive.roomUnitBytes() + " " + Files.size(folder.resolve("track.soak")) + " "
                    + growing + " " + inside;
        }
    }

    private static long taken(RealDrive drive, DriveFile file, ByteBuffer chunk) throws IOException {
        long before = drive.counters().map(Counters::bytesWritten).orElseThrow();
        for (int i = 0; i < CHUNKS; i++) {
            file.write(chunk.clear(), (long) i * CHUNK);
        }
        return drive.counters().map(Counters::bytesWritten).orElseThrow() - before;
    }
}
