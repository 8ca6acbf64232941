/**
 * What the front desk does with a diary on disk, for a command or a server: offers times and takes
 * one of them, finds new times after changes. Answers are values; whoever asks makes words of them.
 * Only the command line comes in.
 *
 * <p>Begin with {@link quadrille.diary.desk.BookingDesk}; {@link
 * quadrille.diary.desk.RebookingDesk} is for changes.
 */
@NullMarked
package quadrille.diary.desk;

import org.jspecify.annotations.NullMarked;
