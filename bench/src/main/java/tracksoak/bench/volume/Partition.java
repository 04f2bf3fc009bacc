package tracksoak.bench.volume;

/**
 * A part of a device that may hold a file system.
 *
 * @param number its place in the table from 1; 0 where the device has no table and is one volume as a whole
 * @param startByte its first byte on the device
 * @param lengthBytes its length in bytes
 */
public record Partition(int number, long startByte, long lengthBytes) {}
