/** Where the program begins and ends: main, the tree of commands, help, completion. */
@NullMarked
package tracksoak.bench.command.main;

import org.jspecify.annotations.NullMarked;
