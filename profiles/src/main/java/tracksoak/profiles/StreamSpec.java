package tracksoak.profiles;

/**
 * One stream of a session: the bytes of one file on their way to the drive.
 *
 * @param index 0-based place in the session
 * @param tracks tracks inside the stream: 1, or all of a group where tracks are interleaved
 * @param bytesPerSecond rate of the stream
 * @param chunkBytes the piece written at once, before any rounding a file system forces on it
 */
public record StreamSpec(int index, int tracks, long bytesPerSecond, int chunkBytes) {}
