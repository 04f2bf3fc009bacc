/** What all commands share: the console, exit codes, options, words, tables, progress. */
@NullMarked
package tracksoak.bench.command.console;

import org.jspecify.annotations.NullMarked;
