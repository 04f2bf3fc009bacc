package tracksoak.bench.tray;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A run that was asked for, as it lies in its folder among the state of this computer.
 *
 * @param schema {@value #SCHEMA}
 * @param id 32 hex digits; names its folder
 * @param tray id of the tray it belongs to, empty for a run alone
 * @param again id of the run in the tray that it does again, alone this time; empty for none
 * @param askedMs when, as epoch time in ms
 * @param words the command that does it, without the program's name
 * @param drive maker and model of the drive, or the name of a simulated one
 * @param place where the drive was mounted, or the name of the simulated drive
 * @param simulated whether the drive is simulated
 * @param session name of the session
 * @param plan name of the plan
 * @param tag what the crew calls the drive, empty if nobody said
 * @param folder where record and report go
 * @param links what the drive's data passes on its way to the computer, the nearest first; null if that is not known
 * @param linkMbps speed of the slowest link on that way in Mbit/s, null if it is not known
 */
public record RunOrder(
        String schema,
        String id,
        String tray,
        String again,
        long askedMs,
        List<String> words,
        String drive,
        String place,
        boolean simulated,
        String session,
        String plan,
        String tag,
        String folder,
        @Nullable List<String> links,
        @Nullable Double linkMbps) {

    static final String SCHEMA = "tracksoak/run-order/1";

    public RunOrder {
        words = List.copyOf(words);
        links = links == null ? null : List.copyOf(links);
    }
}
