/**
 * The practice's time. {@code calendar} holds spans of time and iCalendar, {@code book} the diary
 * itself, {@code audit} reads a diary a second time, {@code file} keeps it, {@code exchange} hands
 * it to other programs, {@code booking} seeks times, {@code desk} offers and takes them. Knows
 * facts, and of a plan the course alone; never a course under way.
 *
 * <p>Begin with {@link quadrille.diary.book.Diary}; {@link quadrille.diary.desk.BookingDesk} finds
 * times for a course.
 */
package quadrille.diary;
