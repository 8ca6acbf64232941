/**
 * The command line: one thin class a command. Options are turned into plain values, the core is
 * called, and what it answers is rendered; nothing is decided here.
 */
@NullMarked
package quadrille.cli;

import org.jspecify.annotations.NullMarked;
