package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.List;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.VolumeBytes;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.bench.volume.ByteSource;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/**
 * Whether an image can be the one a trace was made with. What lay there before the trace began is at the beginning of files, and space given
 * in advance is behind their audio: but audio behind all that the trace wrote into a file was written by somebody else. Stateless.
 */
final class Belonging {

    private static final int LOOKED_AT = 64 << 10;

    private Belonging() {}

    /** Refuses an image of another size. */
    static void mustBeAsLarge(Path trace, long driveBytes, long imageBytes) {
        if (driveBytes != imageBytes) {
            throw foreign(
                    trace,
                    "the drive of the trace had " + Count.number(driveBytes) + " bytes, the image has "
                            + Count.number(imageBytes));
        }
    }

    /**
     * Refuses an image most of whose files hold audio behind the last that the trace wrote.
     *
     * @param files written at the same time, by a trace that was ended in order
     */
    static void mustHoldWhatWasWritten(Path trace, ByteSource image, List<Stream> files) throws IOException {
        String first = "";
        int foreign = 0;
        for (Stream one : files) {
            long audio = audioBehind(image, one);
            if (audio > 0) {
                foreign++;
                first = first.isEmpty()
                        ? Inert.quoted(one.file().path()) + " holds " + Units.bytes(audio)
                                + " of audio, and the trace wrote only the first " + Units.bytes(one.writtenTo())
                                + " of it"
                        : first;
            }
        }
        if (2 * foreign > files.size()) {
            throw foreign(trace, first + "; so it is with " + foreign + " of " + Count.of(files.size(), "file"));
        }
    }

    /** Where the audio of a file ends by its header; 0 if nothing but silence or nothing at all lies behind what was written. */
    private static long audioBehind(ByteSource image, Stream one) throws IOException {
        try (VolumeBytes bytes = new VolumeBytes(image, one.file())) {
            WaveHeader header = WaveHeaderReader.read(bytes);
            long end = header.dataAt() + header.presentBytes();
            if (header.finish() != WaveHeader.Finish.DONE || one.writtenTo() >= end) {
                return 0;
            }
            ByteBuffer behind = ByteBuffer.allocate((int) Math.min(LOOKED_AT, end - one.writtenTo()));
            bytes.read(behind, one.writtenTo());
            for (int i = 0; i < behind.position(); i++) {
                if (behind.get(i) != 0) {
                    return end;
                }
            }
            return 0;
        } catch (UnreadableWave none) {
            return 0;
        }
    }

    private static Problem foreign(Path trace, String why) {
        return new Problem(
                Problem.Kind.REFUSED,
                "This image was not recorded with this trace",
                Inert.quoted(trace),
                why,
                "name the image that the stand-in served when it wrote this trace");
    }
}
