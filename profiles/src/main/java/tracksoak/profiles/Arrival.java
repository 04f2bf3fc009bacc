package tracksoak.profiles;

/** When the chunks of the streams fall due. */
public enum Arrival {
    /** All tracks tick together, so all chunks fall due at once: the hard case. */
    BURST,
    /** The chunks of N streams are spread evenly over one chunk period. */
    STAGGERED
}
