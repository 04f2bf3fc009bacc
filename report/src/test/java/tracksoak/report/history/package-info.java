/** Tests of the comparing room. */
@org.jspecify.annotations.NullMarked
package tracksoak.report.history;
