// SPDX-License-Identifier: ISC
/* test_lv2_points.c - the lists that hosts show: each scale point has a label and
   a value in range, no value or label stands twice, and the lists are the bank's
   entries and nothing else. */
#include "../../plugin/bank/bank.h"
#include "../help/check.h"
#include "../../plugin/engine/groove/settings.h"
#include "bundle.h"

static Host* host;
static LilvWorld* world;
static Bank* bank;

enum { POINTS_MAX = 1024 };

typedef struct {
    char label[TEXT_ROOM];
    double value;
} Point;

/* The points of a port as they stand in the Turtle; lilv leaves out those without
   a label or a value. */
typedef struct {
    Point points[POINTS_MAX];
    unsigned count;
    double least, most;
} Points;

static void take_point(Points* const points, const LilvNode* const node)
{
    if (!CHECK(points->count < POINTS_MAX)) {
        return;
    }
    Point* const point = &points->points[points->count++];
    object_text(world, node, RDFS "label", point->label);
    CHECK_INT(count_objects(world, node, RDFS "label"), 1);
    CHECK_INT(count_objects(world, node, RDF_VALUE), 1);
    point->value = object_number(world, node, RDF_VALUE);
}

/* Static: too large for a stack.  The next call uses it again. */
static const Points* points_of(const LilvPort* const port)
{
    static Points points;
    points.count = 0;
    if (!CHECK(port)) {
        return &points;
    }
    const LilvNode* const node = lilv_port_get_node(host_plugin(host), port);
    points.least = object_number(world, node, LV2_CORE "minimum");
    points.most = object_number(world, node, LV2_CORE "maximum");
    LilvNodes* const found = objects(world, node, LV2_CORE "scalePoint");
    LILV_FOREACH(nodes, i, found)
    {
        take_point(&points, lilv_nodes_get(found, i));
    }
    lilv_nodes_free(found);
    return &points;
}

static const LilvPort* port_called(const char* const symbol)
{
    LilvNode* const node = lilv_new_string(world, symbol);
    const LilvPort* const port = lilv_plugin_get_port_by_symbol(host_plugin(host), node);
    lilv_node_free(node);
    return port;
}

static void check_points(const Points* const points)
{
    for (unsigned i = 0; i < points->count; ++i) {
        const Point* const point = &points->points[i];
        CHECK(*point->label);
        CHECK(point->value >= points->least && point->value <= points->most);
        for (unsigned j = i + 1; j < points->count; ++j) {
            CHECK(strcmp(point->label, points->points[j].label) != 0);
            CHECK(point->value < points->points[j].value || point->value > points->points[j].value);
        }
    }
}

static void points_are_labelled_in_range_and_told_apart(void)
{
    const uint32_t count = lilv_plugin_get_num_ports(host_plugin(host));
    unsigned met = 0;
    for (uint32_t i = 0; i < count; ++i) {
        const LilvPort* const port = lilv_plugin_get_port_by_index(host_plugin(host), i);
        check_case("port %u", i);
        const Points* const points = points_of(port);
        check_points(points);
        met += points->count;
    }
    check_case("all ports");
    CHECK(met > 400); /* a list that wasn't read would pass above */
}

/* Label of the point with this value, "" if there is none. */
static const char* label_of(const Points* const points, const double value)
{
    for (unsigned i = 0; i < points->count; ++i) {
        if (points->points[i].value >= value && points->points[i].value <= value) {
            return points->points[i].label;
        }
    }
    return "";
}

/* The port lists the bank's entries, and `extra` points besides. */
static void check_lists(const char* const symbol, const EntryKind kind, const unsigned extra)
{
    const Points* const points = points_of(port_called(symbol));
    const uint32_t count = bank_count(bank, kind);
    check_case("port %s", symbol);
    CHECK_INT(points->count, count + extra);
    for (uint32_t i = 0; i < count; ++i) {
        const EntryInfo* const entry = bank_entry(bank, kind, i);
        check_case("port %s, %u", symbol, entry->id);
        CHECK_TEXT(label_of(points, entry->id), entry->label);
    }
    CHECK(count > 0);
    CHECK_NEAR(points->most, 1999.0, 0.0); /* ttl/terms.ttl: the last own id */
}

static void grooves_and_kits_are_those_of_the_bank(void)
{
    check_lists("groove", ENTRY_GROOVE, 0);
    check_lists("kit", ENTRY_KIT, 0);
}

static void hands_and_feet_are_those_of_the_bank_and_as_written(void)
{
    check_lists("hands", ENTRY_HANDS, 1);
    check_lists("feet", ENTRY_FEET, 1);
}

static void turnarounds_are_those_of_the_bank_as_written_and_none(void)
{
    check_lists("turnaround", ENTRY_TURNAROUND, 2);
}

/* An enumeration must offer what it stands at when it is first shown. */
static void the_default_of_every_enumeration_is_one_of_its_points(void)
{
    static const char* const symbols[] = {"groove", "hands", "feet", "turnaround", "kit"};
    for (size_t i = 0; i < sizeof symbols / sizeof *symbols; ++i) {
        const LilvPort* const port = port_called(symbols[i]);
        const LilvNode* const node = lilv_port_get_node(host_plugin(host), port);
        check_case("port %s", symbols[i]);
        CHECK(states(world, node, LV2_CORE "portProperty", LV2_CORE "enumeration"));
        CHECK(states(world, node, LV2_CORE "portProperty", LV2_CORE "integer"));
        CHECK(*label_of(points_of(port), object_number(world, node, LV2_CORE "default")));
    }
}

int main(void)
{
    host = bundle_host(48000.0);
    world = host_world(host);
    bank = bank_open((BankSources){.factory = BUNDLE "/bank"});
    if (!bank) {
        return 2;
    }
    RUN(points_are_labelled_in_range_and_told_apart);
    RUN(grooves_and_kits_are_those_of_the_bank);
    RUN(hands_and_feet_are_those_of_the_bank_and_as_written);
    RUN(turnarounds_are_those_of_the_bank_as_written_and_none);
    RUN(the_default_of_every_enumeration_is_one_of_its_points);
    bank_free(bank);
    host_close(host);
    return tests_end();
}
