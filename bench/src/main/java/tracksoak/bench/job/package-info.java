/** What can be asked of the bench, however it is asked: an order goes in, news and a record come out. */
@NullMarked
package tracksoak.bench.job;

import org.jspecify.annotations.NullMarked;
