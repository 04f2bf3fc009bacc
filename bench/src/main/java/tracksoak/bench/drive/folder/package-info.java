/** What is ours on a drive: the folder of a run, its marker and lock, keepsakes, what was left over. */
@NullMarked
package tracksoak.bench.drive.folder;

import org.jspecify.annotations.NullMarked;
