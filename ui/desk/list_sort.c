// SPDX-License-Identifier: ISC
#include "list_sort.h"

#include <math.h>
#include <pango/pango.h>
#include <stdlib.h>
#include <string.h>

static ListOrder* order_of(Model* const model)
{
    return &model->view.list.orders[model->view.list.shelf];
}

ListColumn list_sort_next(const Model* const model, const int by)
{
    const List* const list = &model->view.list;
    const Geometry g = geometry_of(&model->view);
    int column = (int)list->orders[list->shelf].column;
    do {
        column = (column + by + LIST_COLUMNS) % LIST_COLUMNS;
    } while (column != LIST_BY_NONE &&
             geometry_head(&g, list->shelf, (ListColumn)column).width <= 0.0);
    return (ListColumn)column;
}

void list_sort_choose(Model* const model, const ListColumn column)
{
    ListOrder* const order = order_of(model);
    const ListOrder before = *order;
    *order = before.column != column ? (ListOrder){column, false}
             : before.falls          ? (ListOrder){LIST_BY_NONE, false}
                                     : (ListOrder){column, true};
}

void list_sort_turn(Model* const model)
{
    ListOrder* const order = order_of(model);
    order->falls = order->column != LIST_BY_NONE && !order->falls;
}

/* ---- Order */

/* A line and what it is compared by: a number, or a name without regard to case. */
typedef struct {
    ListRow row;
    int place; /* before */
    double number;
    char* name;
} Sorted;

/* Ticks in a bar. */
static double meter_of(const Entry* const entry)
{
    return entry->groove ? (double)meter_bar_ticks(entry->groove->meter) : 0.0;
}

/* Bars of a groove, quarters of a figure. */
static double length_of(const Entry* const entry)
{
    return entry->groove   ? (double)entry->groove->form_bars
           : entry->figure ? (double)entry->figure->cycle_ticks
                           : 0.0;
}

static double number_of(const Entry* const entry, const ListColumn column, const double rate)
{
    switch (column) {
    case LIST_BY_METER:
        return meter_of(entry);
    case LIST_BY_TEMPO:
        return entry->tempo_low; /* the slowest that it is for */
    case LIST_BY_LENGTH:
        return length_of(entry);
    case LIST_BY_DIFFICULTY:
        return entry->difficulty;
    case LIST_BY_RIGHT:
    case LIST_BY_LEFT:
        return rate;
    case LIST_BY_NONE:
    case LIST_BY_NAME:
    case LIST_COLUMNS:
        break;
    }
    return 0.0;
}

static int compare(const void* const a, const void* const b)
{
    const Sorted* const one = a;
    const Sorted* const other = b;
    const int names = one->name && other->name ? strcmp(one->name, other->name) : 0;
    const double apart = one->number - other->number;
    return names != 0                  ? names
           : fabs(apart) > 1e-9        ? (apart < 0.0 ? -1 : 1)
           : one->place < other->place ? -1
                                       : one->place > other->place;
}

/* What falls is compared backward, but what is alike stays in its order. */
static int compare_falling(const void* const a, const void* const b)
{
    const Sorted* const one = a;
    const Sorted* const other = b;
    Sorted same = *other;
    same.place = one->place;
    const int apart = compare(&same, one);
    return apart != 0 ? apart : one->place < other->place ? -1 : one->place > other->place;
}

static Sorted sorted_of(const Model* const model, const int line, const double* const rates)
{
    const List* const list = &model->view.list;
    const Entry* const entry = &model->view.shelves[list->shelf].entries[list->rows[line].entry];
    const ListColumn column = list->orders[list->shelf].column;
    return (Sorted){.row = list->rows[line],
                    .place = line,
                    .number = number_of(entry, column, rates ? rates[line] : 0.0),
                    .name = column == LIST_BY_NAME ? g_utf8_casefold(entry->label, -1) : NULL};
}

void list_sort(Model* const model, const double* const rates)
{
    List* const list = &model->view.list;
    const ListOrder order = *order_of(model);
    Sorted* const lines =
        order.column == LIST_BY_NONE ? NULL : calloc((size_t)list->count + 1, sizeof *lines);
    if (!lines) {
        return;
    }
    int count = 0;
    for (int line = 0; line < list->count; ++line) {
        if (!list->rows[line].is_heading) {
            lines[count++] = sorted_of(model, line, rates);
        }
    }
    qsort(lines, (size_t)count, sizeof *lines, order.falls ? compare_falling : compare);
    for (int line = 0; line < count; ++line) {
        list->rows[line] = lines[line].row;
        g_free(lines[line].name);
    }
    list->count = count;
    free(lines);
}
