package tracksoak.report.record.facts;

/**
 * What ended a phase early.
 *
 * @param kind which kind of fault
 * @param atS when, in s from the start of the phase
 * @param atBytes bytes of the phase written or read by then
 * @param what what the bench was doing, for example {@code write to track-003-part-1.soak}
 * @param message what the system said; not used to classify
 */
public record Fault(Kind kind, double atS, long atBytes, String what, String message) {

    /**
     * Kinds of faults, told apart by the state of the drive afterwards and, where room is lacking, by the system's number for the error;
     * never by an error's words.
     */
    public enum Kind {
        /** A call never came back. */
        HUNG,
        /** The device left the system. */
        GONE,
        /** The file system turned read-only, or the device refuses writes. */
        READ_ONLY,
        /** No room is left although the run kept the reserve free: something else wrote. */
        NO_SPACE,
        /** The file system takes no more files or has no place in its tables, though room is left. */
        NO_ENTRIES,
        /** A file came to be longer than the file system takes or the computer lets this account write. */
        TOO_LARGE,
        /** The account's share of the file system is used up. */
        QUOTA,
        /** Any other error of the drive. */
        IO_ERROR,
        /** A person ended the run. */
        INTERRUPTED,
        /**
         * A person ended the run while a call had not come back, for less than the hang limit. It had been waited for since
         * {@link Fault#atS}, until the end of the phase.
         */
        UNANSWERED,
        /** The bench itself failed. */
        INTERNAL;

        /** Whether the drive itself stopped working. */
        public boolean ofTheDrive() {
            return switch (this) {
                case HUNG, GONE, READ_ONLY, IO_ERROR -> true;
                case NO_SPACE, NO_ENTRIES, TOO_LARGE, QUOTA, INTERRUPTED, UNANSWERED, INTERNAL -> false;
            };
        }

        /** Whether a person ended it. */
        public boolean byAPerson() {
            return this == INTERRUPTED || this == UNANSWERED;
        }
    }
}
