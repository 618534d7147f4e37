// SPDX-License-Identifier: ISC
#include "varied.h"

#include <stddef.h>

enum { GROWN = VARIED_DEPTH - 1 };

static const VariedKey no_key = {.feet = NULL};

void varied_forget(Varied* const varied)
{
    for (uint32_t i = 0; i < VARIED_FIGURES_MAX; ++i) {
        varied->slots[i].key.feet = NULL;
        varied->slots[i].used = 0;
    }
    for (uint32_t i = 0; i < VARIED_ORDERS_MAX; ++i) {
        varied->orders[i].base.feet = NULL;
    }
    varied->next = varied->clock = varied->last = varied->next_order = varied->looked = 0;
    varied->growing = no_key;
}

static bool keys_alike(const VariedKey* const a, const VariedKey* const b)
{
    return a->feet == b->feet && a->hands == b->hands && a->numbers[0] == b->numbers[0] &&
           a->numbers[1] == b->numbers[1] && a->numbers[GROWN] == b->numbers[GROWN] &&
           meter_equal(a->meter, b->meter);
}

/* ---- Figures */

/* Whether its strokes lie in a part of them. */
static bool lies_in(const VariedSlot* const slot, const uint32_t begin, const uint32_t end)
{
    return slot->begin < end && slot->begin + slot->figure.stroke_count > begin;
}

/* Room for so many, of what was kept longest. */
static uint32_t make_room(Varied* const varied, const uint32_t count)
{
    const uint32_t begin = varied->next + count > VARIED_STROKES_MAX ? 0 : varied->next;
    for (uint32_t i = 0; i < VARIED_FIGURES_MAX; ++i) {
        VariedSlot* const slot = &varied->slots[i];
        if (lies_in(slot, begin, begin + count)) {
            slot->key.feet = NULL;
            slot->figure.stroke_count = 0;
        }
    }
    varied->next = begin + count;
    return begin;
}

static VariedSlot* slot_of(Varied* const varied, const VariedKey* const key)
{
    for (uint32_t i = 0; i < VARIED_FIGURES_MAX; ++i) {
        const uint32_t index = (varied->last + i) % VARIED_FIGURES_MAX;
        VariedSlot* const slot = &varied->slots[index];
        if (keys_alike(&slot->key, key)) {
            varied->last = index;
            slot->used = ++varied->clock;
            return slot;
        }
    }
    return NULL;
}

/* One that is free, or was asked for longest ago. */
static VariedSlot* oldest(Varied* const varied)
{
    VariedSlot* slot = &varied->slots[0];
    for (uint32_t i = 0; i < VARIED_FIGURES_MAX && slot->key.feet; ++i) {
        VariedSlot* const other = &varied->slots[i];
        slot = !other->key.feet || other->used < slot->used ? other : slot;
    }
    return slot;
}

/* How deep it is made. */
static uint32_t depth_of(const VariedKey* const key)
{
    uint32_t depth = VARIED_DEPTH;
    while (depth && !key->numbers[depth - 1]) {
        --depth;
    }
    return depth;
}

static void copy_strokes(Varied* const varied, const Figure* const made, VariedSlot* const slot)
{
    slot->begin = make_room(varied, made->stroke_count);
    slot->figure = *made;
    for (uint32_t i = 0; i < made->stroke_count; ++i) {
        varied->strokes[slot->begin + i] = made->strokes[i];
    }
    slot->figure.strokes = &varied->strokes[slot->begin];
}

/* Made of what one number less makes. */
static VariedSlot* make(Varied* const varied, const VariedKey* const key,
                        const VariedFeet* const source)
{
    const uint32_t depth = depth_of(key);
    const Variation made = variation_make(source->figure, key->hands, key->meter,
                                          key->numbers[depth - 1], &varied->room);
    VariedSlot* const slot = oldest(varied);
    *slot = (VariedSlot){.used = ++varied->clock};
    if (made.figure) {
        copy_strokes(varied, made.figure, slot);
    }
    slot->key = *key;
    for (uint32_t i = 0; i < VARIED_DEPTH; ++i) {
        slot->reasons[i] = source->reasons[i];
    }
    slot->reasons[depth - 1] = (uint8_t)made.reason;
    return slot;
}

static void take(const VariedSlot* const slot, VariedFeet* const found)
{
    found->figure = slot->figure.stroke_count ? &slot->figure : found->figure;
    for (uint32_t i = 0; i < VARIED_DEPTH; ++i) {
        found->reasons[i] = slot->reasons[i];
    }
}

/* False if more would have to be made than may be.  A slot of which nothing was made plays
   what it was made of. */
static bool find(Varied* const varied, const VariedKey* const key, uint32_t* const makes,
                 VariedFeet* const found)
{
    const VariedKey* keys[VARIED_DEPTH];
    VariedKey made_of[VARIED_DEPTH];
    const VariedSlot* slot = NULL;
    uint32_t count = 0;
    VariedKey at = *key;
    for (uint32_t depth = depth_of(&at); depth; depth = depth_of(&at)) {
        slot = slot_of(varied, &at);
        if (slot && slot->figure.stroke_count) {
            break;
        }
        made_of[count] = at;
        keys[count] = &made_of[count];
        ++count;
        at.numbers[depth - 1] = 0;
    }
    found->figure = key->feet;
    if (slot && slot->figure.stroke_count) {
        take(slot, found);
    }
    while (count--) {
        slot = slot_of(varied, keys[count]);
        if (!slot && !*makes) {
            return false;
        }
        *makes -= !slot;
        take(slot ? slot : make(varied, keys[count], found), found);
    }
    return true;
}

/* ---- Grow */

static const VariedOrder* order_of(const Varied* const varied, const VariedKey* const base)
{
    for (uint32_t i = 0; i < VARIED_ORDERS_MAX; ++i) {
        if (keys_alike(&varied->orders[i].base, base)) {
            return &varied->orders[i];
        }
    }
    return NULL;
}

/* NULL if more rows would have to be looked at than may be. */
static const VariedOrder* find_order(Varied* const varied, const VariedKey* const base,
                                     uint32_t* const makes)
{
    const VariedOrder* const kept = order_of(varied, base);
    VariedFeet source = {.figure = NULL};
    if (kept || !find(varied, base, makes, &source)) {
        return kept;
    }
    if (!keys_alike(&varied->growing, base)) {
        varied->growing = *base;
        varied->looked = 0;
    }
    const uint32_t left = VARIATION_COUNT - varied->looked;
    const uint32_t some = left < *makes ? left : *makes;
    if (some) {
        variation_offer_some(source.figure, base->hands, base->meter, varied->looked,
                             varied->looked + some, varied->rows, &varied->room);
    }
    *makes -= some;
    varied->looked += some;
    if (varied->looked < VARIATION_COUNT) {
        return NULL;
    }
    VariedOrder* const order = &varied->orders[varied->next_order++ % VARIED_ORDERS_MAX];
    order->base = *base;
    order->count = variation_order(varied->rows, order->numbers);
    varied->growing = no_key;
    return order;
}

static bool grow(Varied* const varied, VariedKey* const key, const int64_t turn,
                 uint32_t* const makes)
{
    const VariedOrder* const order = find_order(varied, key, makes);
    if (order && order->count) {
        key->numbers[GROWN] = order->numbers[variation_grow(order->count, turn, 1)];
    }
    return order;
}

/* ---- What is asked */

static uint8_t number_of(const uint32_t asked)
{
    return (uint8_t)(asked < VARIATION_COUNT ? asked : VARIATION_COUNT);
}

static bool look(Varied* const varied, const VariedAsk* const ask, uint32_t* const makes,
                 VariedFeet* const found)
{
    VariedKey key = {
        ask->feet, ask->hands, ask->meter, {number_of(ask->first), number_of(ask->second), 0}};
    if (ask->turn != VARIED_STAYS && !grow(varied, &key, ask->turn, makes)) {
        return false;
    }
    *found = (VariedFeet){.figure = ask->feet};
    for (uint32_t i = 0; i < VARIED_DEPTH; ++i) {
        found->numbers[i] = key.numbers[i];
    }
    return find(varied, &key, makes, found);
}

VariedFeet varied_find(Varied* const varied, const VariedAsk* const ask)
{
    VariedFeet found;
    uint32_t makes = UINT32_MAX;
    look(varied, ask, &makes, &found);
    return found;
}

bool varied_step(Varied* const varied, const VariedAsk* const ask, uint32_t* const makes)
{
    VariedFeet found;
    return look(varied, ask, makes, &found);
}

uint32_t varied_steps(const VariedAsk* const ask)
{
    const uint32_t grown = ask->turn == VARIED_STAYS ? 0 : VARIATION_COUNT + 1;
    const uint32_t own = ask->first ? 1 : 0;
    return own + (ask->second ? 1 : 0) + grown;
}
