package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.stream.KeepsakeList;

/**
 * What an earlier run left on the drive, to be read first.
 *
 * @param drive reaches the folder it lies in; null if the folder is not there any more
 * @param list which files, and what they must hold
 * @param known whether the list is this computer's own; otherwise it was found on the drive beside the files
 */
public record Keepsake(@Nullable Drive drive, KeepsakeList list, boolean known) {}
