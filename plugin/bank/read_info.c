// SPDX-License-Identifier: ISC
#include "entries.h"

#include "utf8.h"

#include <stdlib.h>
#include <string.h>

char* read_copy(const Subject* const subject, const char* const text)
{
    char* const copy = strdup(text ? text : "");
    if (copy) {
        utf8_repair(copy); /* serd lets some through that isn't */
    } else {
        turtle_fail(subject->turtle);
    }
    return copy;
}

/* As people say it; ttl/terms.ttl lies in the bank folder for this. */
static const char* family_label(Subject* const subject)
{
    const SordNode* const family = field_node(subject, "family", false);
    if (!family) {
        return "";
    }
    const char* const label = turtle_label(subject->turtle, family);
    const char* const uri = (const char*)sord_node_get_string(family);
    const char* const hash = strrchr(uri, '#');
    return label ? label : hash ? hash + 1 : uri;
}

EntryInfo read_info(Subject* const subject, const uint32_t id, const bool is_users,
                    const bool label_required)
{
    const char* const label = field_optional_text(subject, RDFS_NS "label");
    const SordNode* const family = field_node(subject, "family", false);
    if (label_required && (!label || !*label)) {
        field_wrong(subject, NULL, "rdfs:label: is missing; expected a name in quotes");
    }
    return (EntryInfo){
        .id = id,
        .name = read_copy(subject, turtle_name(subject->turtle, subject->subject)),
        .where = read_copy(subject, turtle_where(subject->turtle, subject->subject, NULL)),
        .uri = read_copy(subject, (const char*)sord_node_get_string(subject->subject)),
        .label = read_copy(subject, label),
        .comment = read_copy(subject, field_optional_text(subject, RDFS_NS "comment")),
        .family = read_copy(subject, family_label(subject)),
        .family_uri = read_copy(subject, family ? (const char*)sord_node_get_string(family) : NULL),
        .differs = read_copy(subject, field_optional_text(subject, FL_TERMS "differs")),
        .alone = read_copy(subject, field_optional_text(subject, FL_TERMS "standsAlone")),
        .tempo_low = (int)field_integer(subject, "tempoLow", 0, 1000, 0),
        .tempo_high = (int)field_integer(subject, "tempoHigh", 0, 1000, 0),
        .is_users = is_users,
    };
}

void read_info_free(EntryInfo* const info)
{
    /* Made by read_copy; const only for those who are lent them. */
    free((void*)(uintptr_t)info->name);
    free((void*)(uintptr_t)info->where);
    free((void*)(uintptr_t)info->uri);
    free((void*)(uintptr_t)info->label);
    free((void*)(uintptr_t)info->comment);
    free((void*)(uintptr_t)info->family);
    free((void*)(uintptr_t)info->family_uri);
    free((void*)(uintptr_t)info->differs);
    free((void*)(uintptr_t)info->alone);
}
