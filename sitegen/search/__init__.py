"""Search: an index in many small shards, and the ranking that reads it. Twin of the theme's `search-*.js`.

Pure: texts in, shards out; which file a shard becomes is `render/search_index.py`.
"""
