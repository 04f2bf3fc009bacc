package tracksoak.bench.climb;

/** What a climb does next. */
public sealed interface Move {

    /** Look at one rung. */
    record Look(Told.Kind kind, int rung) implements Move {}

    /**
     * Nothing more to do.
     *
     * @param margin the last rung with every margin met
     * @param loss the last rung before audio is lost; {@code NOT_ASKED} if nobody asked
     */
    record End(Edge margin, Edge loss) implements Move {}
}
