package tracksoak.bench.volume;

/**
 * A piece of a file whose clusters another file has as well, so that only one of both can hold what was written to it.
 *
 * @param path of the file, as {@link VolumeFile#path} has it; from outside, so not yet harmless to look at
 * @param fromByte where in the file it begins
 * @param place where on the device it lies
 */
public record SharedPiece(String path, long fromByte, Extent place) {

    /** Whether both have clusters in common. */
    public boolean meets(SharedPiece other) {
        return place.startByte() < other.place.endByte() && other.place.startByte() < place.endByte();
    }
}
