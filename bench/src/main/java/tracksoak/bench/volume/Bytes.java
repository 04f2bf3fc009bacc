package tracksoak.bench.volume;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** Numbers and texts in a piece of a device, the low byte first. Immutable as long as nobody changes the array. */
final class Bytes {

    private final byte[] array;
    private final ByteBuffer view;

    Bytes(byte[] array) {
        this.array = array;
        this.view = ByteBuffer.wrap(array).order(ByteOrder.LITTLE_ENDIAN);
    }

    int length() {
        return array.length;
    }

    int u8(int at) {
        return array[at] & 0xFF;
    }

    int u16(int at) {
        return view.getShort(at) & 0xFFFF;
    }

    long u32(int at) {
        return view.getInt(at) & 0xFFFF_FFFFL;
    }

    /** A number of 64 bits that counts something; one too large to be true becomes the largest there is. */
    long u64(int at) {
        long value = view.getLong(at);
        return value < 0 ? Long.MAX_VALUE : value;
    }

    boolean holds(int at, String text) {
        byte[] wanted = text.getBytes(StandardCharsets.ISO_8859_1);
        return at + wanted.length <= array.length
                && Arrays.equals(array, at, at + wanted.length, wanted, 0, wanted.length);
    }

    /** So many characters of UTF-16. */
    String utf16(int at, int characters) {
        return new String(array, at, 2 * characters, StandardCharsets.UTF_16LE);
    }
}
