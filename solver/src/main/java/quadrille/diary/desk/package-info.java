/**
 * What the front desk does with a diary on disk, for a command or a server: {@link
 * quadrille.diary.desk.BookingDesk} offers times and takes one of the offers, {@link
 * quadrille.diary.desk.RebookingDesk} finds new times after changes. Answers are values; whoever
 * asks makes words of them.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.desk;
