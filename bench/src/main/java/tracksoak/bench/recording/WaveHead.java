package tracksoak.bench.recording;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Makes the head of a WAVE file of known length: RIFF where 32 bits suffice, else RF64 (EBU Tech 3306). Stateless. */
public final class WaveHead {

    private static final int PCM = 1;
    private static final int FLOAT = 3;
    private static final long MOST_RIFF = 0xFFFF_FFFFL;
    private static final int FMT_BYTES = 16;

    private WaveHead() {}

    /** The bytes before the samples. After an odd number of bytes of samples one byte more must follow. */
    public static byte[] of(WaveFormat format, long dataBytes) {
        long padded = dataBytes + (dataBytes & 1);
        // what is no plain PCM has a chunk that tells its length once more
        int fact = format.isFloat() ? 12 : 0;
        boolean large = 36 + fact + padded > MOST_RIFF;
        long samples = dataBytes / format.frameBytes();
        ByteBuffer head = ByteBuffer.allocate(44 + fact + (large ? 36 : 0)).order(ByteOrder.LITTLE_ENDIAN);
        id(head, large ? "RF64" : "RIFF");
        long outer = head.capacity() - 8 + padded;
        head.putInt((int) (large ? MOST_RIFF : outer));
        id(head, "WAVE");
        if (large) {
            id(head, "ds64");
            head.putInt(28).putLong(outer).putLong(dataBytes).putLong(samples).putInt(0);
        }
        id(head, "fmt ");
        head.putInt(FMT_BYTES)
                .putShort((short) (format.isFloat() ? FLOAT : PCM))
                .putShort((short) format.channels())
                .putInt(format.sampleRateHz())
                .putInt((int) format.bytesPerSecond())
                .putShort((short) format.frameBytes())
                .putShort((short) (8 * format.bytesPerSample()));
        if (format.isFloat()) {
            id(head, "fact");
            head.putInt(4).putInt((int) Math.min(samples, MOST_RIFF));
        }
        id(head, "data");
        head.putInt((int) (large ? MOST_RIFF : dataBytes));
        return head.array();
    }

    private static void id(ByteBuffer head, String id) {
        head.put(id.getBytes(StandardCharsets.US_ASCII));
    }
}
